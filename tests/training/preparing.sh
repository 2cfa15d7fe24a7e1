#!/bin/sh
# Gathers what the training needs into .train: the lines to say, the programs that say them with
# their libraries, and the encoder. Needs Debian's packages flite, espeak-ng, opus-tools
# and scowl. Of espeak-ng's dictionaries only the English one.
set -eu
cd "$(dirname "$0")/../.."
to=.train/speaking
rm -rf "$to" && mkdir -p "$to/bin" "$to/lib"
for program in flite espeak-ng opusdec; do
  path=$(command -v $program)
  cp "$path" "$to/bin/"
  ldd "$path" | grep -o '/[^ ]*' | xargs -I{} cp -L {} "$to/lib/"
done
cp -r /usr/lib/*/espeak-ng-data "$to/"
find "$to/espeak-ng-data" -name "*_dict" ! -name en_dict -delete
tar -C .train -cJf .train/speaking.tar.xz speaking
rm -rf "$to"
cp node_modules/@moonshine-ai/moonshine-js/dist/model/tiny/quantized/encoder_model.onnx .train/encoder.onnx
npx tsx tests/training/writing.ts .train/text.json "${LINES:-60000}"
gzip -f .train/text.json
