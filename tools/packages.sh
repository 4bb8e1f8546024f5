# shellcheck shell=bash disable=SC2034,SC2154
# The Debian packages that Quoin is built, tested and measured with (Debian 12, bookworm), and how
# the missing ones are installed. Sourced by ./run.

packages_to_build=(
  g++ cmake ninja-build pkg-config ccache python3
  libboost-dev libfmt-dev libtomlplusplus-dev nlohmann-json3-dev
  libcairo2-dev libpango1.0-dev libfontconfig-dev librsvg2-dev libglib2.0-dev
  libpng-dev libjpeg-dev libwebp-dev libtiff-dev libexif-dev liblcms2-dev
  libdeflate-dev libxml2-dev libqpdf-dev libzip-dev nettle-dev zlib1g-dev libcpp-httplib-dev
  libmd4c-dev libmd4c-html0-dev libopencv-core-dev libopencv-imgproc-dev
)
packages_to_test=(
  libgtest-dev libgmock-dev librapidcheck-dev libeigen3-dev libpotrace-dev
  clang-format-14
  poppler-utils mupdf-tools ghostscript qpdf imagemagick librsvg2-bin python3-ezdxf
  chromium
)
packages_to_fuzz=(clang-14 libclang-rt-14-dev llvm-14)
packages_to_measure=(
  libpotrace-dev imagemagick librsvg2-bin fontconfig fonts-lato fonts-vollkorn fonts-ebgaramond
)

# Prints the packages of the arguments that are not installed, a line each.
missing_packages() {
  local here
  here=$(dpkg-query -W -f '${db:Status-Status} ${Package}\n' "$@" 2>/dev/null |
    sed -n 's/^installed //p')
  grep -vxF -f <(echo "$here") <(printf '%s\n' "$@")
}

# Runs a command as root: directly when we are, through sudo when there is one.
as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi
}

say_packages_by_hand() {
  echo "run: $1; these Debian packages are missing:" >&2
  echo "  apt-get install --no-install-recommends $2" >&2
  echo "Install them as root, or set QUOIN_PACKAGES=as-is to go on without." >&2
}

# Puts the npm packages of the outside checks, as their lock names them, into $build/node, unless
# they are there. Node.js 18 or newer with npm will do; without one, Debian's own are installed.
need_node_packages() {
  local from=$root/tests/outside to=$build/node
  if ! command -v node > /dev/null || ! command -v npm > /dev/null; then
    need_packages nodejs npm || return 1
    command -v npm > /dev/null || return 0  # asked to go on without: the checks will say so
  fi
  cmp -s "$from/package-lock.json" "$to/installed" && return 0
  echo "run: installing the npm packages of the outside checks" >&2
  mkdir -p "$to"
  cp "$from/package.json" "$from/package-lock.json" "$to" || return 1
  if (cd "$to" && npm ci --ignore-scripts --no-audit --no-fund) > "$to/npm.log" 2>&1; then
    cp "$from/package-lock.json" "$to/installed"
    return 0
  fi
  tail -n 20 "$to/npm.log" >&2
  [ "${QUOIN_PACKAGES:-}" = as-is ]
}

# Installs what is missing of the packages named; takes no time when nothing is.
need_packages() {
  [ "${QUOIN_PACKAGES:-}" = as-is ] && return 0
  if ! command -v dpkg-query > /dev/null; then
    say_packages_by_hand "this is not Debian" "$*"
    return 1
  fi
  local missing log=$build/packages.log
  mapfile -t missing < <(missing_packages "$@")
  [ ${#missing[@]} = 0 ] && return 0
  if [ "$(id -u)" != 0 ] && ! command -v sudo > /dev/null; then
    say_packages_by_hand "not root, and there is no sudo" "${missing[*]}"
    return 1
  fi
  echo "run: installing Debian packages: ${missing[*]}" >&2
  mkdir -p "$build"
  if as_root apt-get update > "$log" 2>&1 &&
    as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends \
      "${missing[@]}" >> "$log" 2>&1 < /dev/null; then
    return 0
  fi
  tail -n 20 "$log" >&2
  say_packages_by_hand "apt-get did not get through (all it said is in $log)" "${missing[*]}"
  return 1
}
