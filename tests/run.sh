#!/usr/bin/env bash
# Installs what the tests need and runs all of them. One command, from a fresh clone:
#
#     bash tests/run.sh
#
# Needs Rust (cargo) and Python 3.10 or newer; everything else goes into target/outside-venv.
# Everything is built once, in release: the dependencies are by far the longest part of a run.
set -euo pipefail
cd "$(dirname "$0")/.."

venv=target/outside-venv
if ! [ -x "$venv/bin/python" ]; then
    python3 -m venv "$venv"
fi
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check -r tests/requirements.txt

# OpenCASCADE wants the system's OpenGL library, which a bare server lacks
if ! "$venv/bin/python" -c "import OCP.gp" 2>/dev/null; then
    echo "installing libgl1 for OpenCASCADE (needs root; on other systems install libGL yourself)"
    apt-get update -qq && apt-get install -y -qq libgl1
fi

cargo fmt --check
cargo clippy --release --all-targets --quiet -- -D warnings
RUSTDOCFLAGS="-D warnings" cargo doc --release --no-deps --quiet
cargo build --release
export SWEPT_OUTSIDE_DIR="$PWD/target/outside"
rm -rf "$SWEPT_OUTSIDE_DIR"
cargo test --release

# the Rust tests above have left their samples here for the outside readers
"$venv/bin/python" -m pytest tests/outside -q -n auto
