#!/bin/sh
# Speaks and trains on a machine with accelerators and many cores, from what preparing.sh gathered.
#   running.sh OUT SECONDS SEED HEADS UTTERANCES KEPT
# HEADS: names of VARIANTS in training.py; a comma trains them on one accelerator, each on the same
# clips, a slash on the next accelerator (results in OUT/0, OUT/1). START=FOLDER goes on from its NAME.pt,
# GENTLY=SHARE at that share of the rate (.8/.55: one for each accelerator). START=committed: from the
# heads of public/ear. A run in N parts: PART=I/N, the same WORK=FOLDER and OUT for each, I from 0.
set -eu
cd "$(dirname "$0")/../.."
out=$1 seconds=$2 seed=$3 heads=$4 utterances=$5 kept=$6
work=${WORK:-$(mktemp -d)}
mkdir -p "$work/speech" "$work/start"
here=tests/training
export SPEAKING="$work/speaking"
if [ ! -d "$SPEAKING" ]; then
  tar -C "$work" -xJf .train/speaking.tar.xz
  gunzip -c .train/text.json.gz > "$work/text.json"
  (
    python3 $here/speaking.py "$work/text.json" "$work/speech" "$kept" 2 kept
    python3 $here/speaking.py "$work/text.json" "$work/speech" "$utterances" "$seed" taught
  ) > "$work/speaking.log" 2>&1 < /dev/null &
fi
if [ -d .train/people ] && [ ! -f "$work/speech/unmet.pickle" ]; then
  python3 $here/people.py .train/people "$work/speech" \
    "$SPEAKING/lib/ld-linux-x86-64.so.2" --library-path "$SPEAKING/lib" "$SPEAKING/bin/opusdec"
fi
if [ "${START:-}" = committed ] && [ ! -f "$work/start/alone24.pt" ]; then
  python3 $here/recovering.py public/ear/phone-head.onnx rivals24 "$work/start/rivals24.pt"
  python3 $here/recovering.py public/ear/small-head.onnx alone24 "$work/start/alone24.pt"
fi
[ "${START:-}" != committed ] || export START="$work/start"
# So much must be spoken before the training begins; it takes up the rest as it comes.
waited=0
until [ "$(ls "$work/speech" | grep -c '^taught')" -ge 12 ] || [ $waited -ge 120 ]; do sleep 1; waited=$((waited + 1)); done
card=0
for group in $(echo "$heads" | tr / ' '); do
  GOING="$out/$card" GENTLY=$(echo "${GENTLY:-1}" | cut -d/ -f$((card + 1))) CUDA_VISIBLE_DEVICES=$card \
    python3 $here/training.py "$work/speech" .train/encoder.onnx "$out/$card" \
    "$seconds" $((seed + card)) "$group" "${BATCH:-256}" &
  trainings="${trainings:-} $!"
  card=$((card + 1))
done
# shellcheck disable=SC2086
wait $trainings
cat "$work/speaking.log"
