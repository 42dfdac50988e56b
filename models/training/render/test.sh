#!/bin/sh
# Builds the CPU renderer and runs its checks (seconds).
set -e
cd "$(dirname "$0")"
make build/test
./build/test
