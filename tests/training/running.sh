#!/bin/sh
# Speaks and trains on a machine with accelerators and many cores, from what preparing.sh gathered.
#   running.sh OUT SECONDS SEED HEADS UTTERANCES KEPT
# HEADS: names of VARIANTS in training.py; a comma trains them on one accelerator, each on the same
# clips, a slash on the next accelerator (results in OUT/0, OUT/1). START=FOLDER goes on from its NAME.pt,
# GENTLY=SHARE at that share of the rate (.8/.55: one for each accelerator).
set -eu
cd "$(dirname "$0")/../.."
out=$1 seconds=$2 seed=$3 heads=$4 utterances=$5 kept=$6
work=$(mktemp -d)
tar -C "$work" -xJf .train/speaking.tar.xz
gunzip -c .train/text.json.gz > "$work/text.json"
export SPEAKING="$work/speaking"
mkdir "$work/speech"
here=tests/training
(
  python3 $here/speaking.py "$work/text.json" "$work/speech" "$kept" 2 kept
  python3 $here/speaking.py "$work/text.json" "$work/speech" "$utterances" "$seed" taught
) > "$work/speaking.log" 2>&1 &
speaking=$!
# So much must be spoken before the training begins; it takes up the rest as it comes.
until [ "$(ls "$work/speech" | grep -c '^taught')" -ge 12 ] || ! kill -0 $speaking 2> /dev/null; do sleep 1; done
card=0
for group in $(echo "$heads" | tr / ' '); do
  GENTLY=$(echo "${GENTLY:-1}" | cut -d/ -f$((card + 1))) CUDA_VISIBLE_DEVICES=$card python3 $here/training.py "$work/speech" .train/encoder.onnx "$out/$card" \
    "$seconds" $((seed + card)) "$group" "${BATCH:-256}" &
  card=$((card + 1))
done
wait
cat "$work/speaking.log"
