#!/bin/sh
# Every source follows .clang-format. Without clang-format this says so and is skipped (exit 77).
#   check_format.sh SOURCE_DIR
set -eu
cd "$1"
formatter=
for candidate in clang-format-14 clang-format; do
    if command -v "$candidate" >/dev/null 2>&1; then formatter=$candidate; break; fi
done
if [ -z "$formatter" ]; then
    echo "SKIPPED: clang-format is not installed, so the format was not checked."
    exit 77
fi
# Other versions lay out some lines otherwise; the files follow 14.
if ! "$formatter" --version | grep -q 'version 14\.'; then
    echo "SKIPPED: $("$formatter" --version) is not version 14, which the sources follow."
    exit 77
fi
find core app ui tests \( -name '*.h' -o -name '*.cpp' \) -type f | LC_ALL=C sort |
    xargs "$formatter" --dry-run --Werror
echo "Every source is formatted."
