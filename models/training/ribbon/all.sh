#!/bin/bash
# Renders, traces, packs and trains at once on one machine until a time of day, from the project's root.
#
#   DUMP="node dump.mjs" models/training/ribbon/all.sh LIBRARY WORK STATES SEED SECONDS SHAPE...
#
# LIBRARY: libhprender.so. WORK: an empty folder in memory (some 60 GB an hour); its log folder says how each part fares.
# STATES: narrow.pt and SHAPE.pt to begin with; the trained ones replace them. Each SHAPE trains on a GPU of its own, as far as
# there are any; the last GPU also renders and looks at the scenes. DUMP: how dump.ts is run, where tsx is not at hand.
set -u
LIBRARY=$(realpath "$1") WORK=$2 STATES=$(realpath "$3") SEED=$4 STOP=$(($(date +%s) + $5))
shift 5
# nproc would count what OMP_NUM_THREADS says, which is set below.
CORES=$(nproc) GPUS=$(nvidia-smi -L | wc -l)
export OMP_NUM_THREADS=1 PYTHONUNBUFFERED=1
HERE=models/training/ribbon LOG=$WORK/log LAST=$((GPUS - 1)) PACKERS=$((CORES / 8 + 1))
mkdir -p "$WORK"/{packed,tracing,traced,log,asked0,asked1}
trap 'kill $(jobs -p) 2>/dev/null' EXIT

for k in 0 1; do
  CUDA_VISIBLE_DEVICES=$LAST python3 $HERE/scenes.py --library "$LIBRARY" --out "$WORK/scenes$k" --seed $((SEED + k * 2000000000)) \
    --ahead 16 >"$LOG/scenes$k.log" 2>&1 &
  CUDA_VISIBLE_DEVICES=$LAST python3 $HERE/scores.py "$WORK/asked$k" >"$LOG/scores$k.log" 2>&1 &
done
for k in $(seq 0 $((PACKERS - 1))); do
  mkdir -p "$WORK/lines$k"
  CUDA_VISIBLE_DEVICES= python3 $HERE/traced.py watch "$WORK/lines$k" "$WORK/packed" >"$LOG/pack$k.log" 2>&1 &
done

# Traces one folder of scenes after the other. Whoever moves it has it.
trace() {
  local k=$1 n=0 scenes name
  while [ "$(date +%s)" -lt $((STOP - 20)) ]; do
    scenes=$(ls -d "$WORK"/scenes*/ready/* 2>/dev/null | shuf -n1)
    [ -n "$scenes" ] && mv "$scenes" "$WORK/tracing/$k" 2>/dev/null || { sleep 0.3; continue; }
    n=$((n + 1))
    # Of 40 numbers one is held out (train.py): these run through all of them.
    name=$((k * 10007 + n))
    ${DUMP:-npx tsx test/vision/ribbon/dump.ts} "$WORK/tracing/$k" "$WORK/traced/$name.jsonl" "$WORK/asked$((k % 2))" >>"$LOG/trace.log" 2>&1
    mv "$WORK/traced/$name.jsonl" "$WORK/lines$((k % PACKERS))/"
    rm -rf "$WORK/tracing/$k"
  done
}
for k in $(seq 1 $((CORES * 15 / 16))); do trace "$k" & done

cp "$STATES/narrow.pt" "$WORK/narrow.pt"
training=()
for shape in "$@"; do
  CUDA_VISIBLE_DEVICES=$((${#training[@]} % GPUS)) python3 $HERE/train.py "$shape" --packed "$WORK/packed" --out "$STATES" --resume "$STATES" \
    --narrow "$WORK/narrow.pt" --stop-at $((STOP - 4)) ${TRAIN:---compile --learning-rate 1e-3} >"$LOG/$shape.log" 2>&1 &
  training+=($!)
done
wait "${training[@]}"
grep -h 'held out\|done' "$LOG"/*.log | tail -20
