#!/bin/sh
# People who say what is no reply, for the fit of confidence: short words and phrases in many
# languages, at 16 kHz, every sixth of 4,600. Their voices are in no other sound of the project.
#   sh tests/training/people.sh FOLDER
# Needs Debian's ffmpeg; takes klettres-data and ktuberling-data and the French, Italian
# and Russian asterisk-core-sounds, installs none of them.
set -e
mkdir -p "$1"
folder=$(cd "$1" && pwd)
cd "$(mktemp -d)"
apt-get download klettres-data ktuberling-data asterisk-core-sounds-fr-wav \
  asterisk-core-sounds-it-wav asterisk-core-sounds-ru-wav
for package in *.deb; do dpkg-deb -x "$package" .; done
find . \( -path '*/sounds/*.ogg' -o -path '*/syllab/*.ogg' -o -name '*.wav' \) ! -path '*silence*' |
  LC_ALL=C sort | awk 'NR % 6 == 1' |
  while read -r file; do
    name=$(echo "$file" | sed 's,^\./usr/share/,,; s,/,_,g; s,\.[a-z]*$,,')
    ffmpeg -loglevel error -nostdin -y -i "$file" -t 6 -ac 1 -ar 16000 "$folder/$name.wav"
  done
