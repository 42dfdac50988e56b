#!/bin/sh
# Renders the demo scenes and their truth into sample-images/ (ImageMagick turns the PNGs into JPEGs).
# Usage, in this folder: sh samples.sh [SIZE] [SAMPLES]
set -e
make build/samples
tmp=$(mktemp -d)
out=../../../sample-images
./build/samples "$tmp" "${1:-1200}" "${2:-6}"
for f in "$tmp"/*.png; do
  convert "$f" -strip -sampling-factor 2x2 -quality 90 "$out/$(basename "$f" .png).jpg"
done
cp "$tmp/manifest.json" "$out/manifest.json"
rm -r "$tmp"
