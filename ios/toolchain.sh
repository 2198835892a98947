#!/usr/bin/env bash
# Makes, or finds again, a Swift tool chain for a Debian or Ubuntu machine, and prints its folder; all else goes to standard error.
#   T=$(bash ios/toolchain.sh) && ( . "$T/env.sh"; swift --version )
# It unpacks Debian packages into a cache folder and points their programs at the C library unpacked beside them: nothing is
# installed, mounted or changed on the machine, and no root is needed. Stop it at any time; the next run goes on.
#   SWIFT_CACHE   the cache folder; else gatepost-swift in the user's cache. The tree cannot be moved: it holds its own path.
#   SWIFT_MIRROR  a Debian mirror; else those that apt is set up with.
set -euo pipefail
exec 3>&1 1>&2 # 3 is the answer's way out

suite=trixie # Debian 13: the first with Swift 6 among its packages
wanted=(swiftlang libc6-dev libstdc++-14-dev patchelf)
needed=(apt-get dpkg-deb ar xz tar flock awk sha256sum)
keyring=/usr/share/keyrings/debian-archive-keyring.gpg

stop() { echo "toolchain.sh: $*"; exit 1; }
for tool in "${needed[@]}"; do command -v "$tool" >/dev/null || stop "$tool is missing"; done
[ -r "$keyring" ] || stop "the package debian-archive-keyring is missing"

arch=$(dpkg --print-architecture)
case $arch in
amd64) triplet=x86_64-linux-gnu loader=ld-linux-x86-64.so.2 ;;
arm64) triplet=aarch64-linux-gnu loader=ld-linux-aarch64.so.1 ;;
*) stop "no recipe for $arch" ;;
esac

cache=${SWIFT_CACHE:-${XDG_CACHE_HOME:-${HOME:?}/.cache}/gatepost-swift}
mkdir -p "$cache"
cache=$(cd "$cache" && pwd -P)
recipe=$(grep -v '^ *#' "${BASH_SOURCE[0]}" | sha256sum | cut -c1-12) # another recipe, another tree
tree=$cache/$suite-$arch-$recipe
libraries=$tree/usr/lib/$triplet
swift_bin=usr/libexec/swift/bin

# A tree is whole when its last file is there and names the place that it was made for.
whole() { [ "$(cat "$tree/.whole" 2>/dev/null)" = "$tree" ] && [ -x "$tree/$swift_bin/swift-frontend" ]; }
answer() { echo "$tree" >&3; exit 0; }

# apt's own resolver and signature check, in folders of our own: the machine's lists and packages stay as they are.
private_apt() {
    apt-get -qq -o Dir::State="$apt/state" -o Dir::State::status="$apt/status" -o Dir::Cache="$apt/cache" \
        -o Dir::Etc::sourcelist="$apt/sources.list" -o Dir::Etc::sourceparts=/dev/null -o Dir::Etc::preferencesparts=/dev/null \
        -o APT::Sandbox::User="$(id -un)" -o Debug::NoLocking=1 -o Acquire::Languages=none -o Acquire::Retries=3 \
        -o Acquire::http::Timeout=60 -o Acquire::IndexTargets::deb::DEP-11::DefaultEnabled=false "$@" </dev/null
}

# What linking with lld does not need is said to be installed, so that it is not fetched.
pretend_installed() {
    local package
    for package in gcc binutils debconf libasan8 libtsan2 libhwasan0 liblsan0 libubsan1 libitm1 libquadmath0 libcc1-0 libpython3.13; do
        printf 'Package: %s\nStatus: install ok installed\nArchitecture: %s\nMulti-Arch: same\n' "$package" "$arch"
        printf 'Maintainer: none\nVersion: 99:99\nDescription: none\n\n'
    done >"$apt/status"
}

# The mirrors that apt uses for the running release; also before its first update.
mirrors() {
    local VERSION_CODENAME
    . /etc/os-release
    apt-get update --print-uris 2>/dev/null </dev/null | sed -n "s#^'\(.*\)/dists/$VERSION_CODENAME/.*#\1#p" | awk '!seen[$0]++'
}

download() {
    local mirror
    apt=$cache/apt
    mkdir -p "$apt/state/lists/partial" "$apt/cache/archives/partial"
    pretend_installed
    for mirror in ${SWIFT_MIRROR:-$(mirrors)}; do
        echo "deb [signed-by=$keyring] $mirror $suite main" >"$apt/sources.list"
        private_apt update && private_apt install -y --no-install-recommends --print-uris "${wanted[@]}" >"$apt/uris" || continue
        private_apt autoclean >/dev/null
        awk '{ n++; s += $3 } END { printf "Swift tool chain: %d packages, %.0f MB to download\n", n, s / 1e6 }' "$apt/uris"
        private_apt install -y --no-install-recommends --download-only "${wanted[@]}" && return
    done
    stop "no mirror gave ${wanted[*]} from $suite"
}

unpack_to() {
    local new=$1 deb part s=./usr/libexec/swift
    local skip=(./usr/share/doc ./usr/share/man ./usr/share/locale ./usr/share/lintian "$s/bin/lldb*" "$s/bin/clangd" "$s/bin/docc"
        "$s/bin/sourcekit-lsp" "$s/lib/liblldb*" "$s/lib/libLTO*" "$s/lib/libsourcekitdInProc.so" "$s/lib/python*"
        "$s/lib/swift_static" "$s/lib/swift/embedded" "$s/lib/swift/FrameworkABIBaseline" "$s/lib/swift/host/lib_InternalSwiftScan.so")
    mkdir -p "$new"/usr/{bin,sbin,lib,lib64}
    for part in bin sbin lib lib64; do ln -s "usr/$part" "$new/$part"; done
    for deb in "$apt"/cache/archives/*.deb; do
        # xz on all cores where the package allows it: a third of the time of dpkg-deb
        if ar t "$deb" | grep -qx data.tar.xz; then ar p "$deb" data.tar.xz | xz -dc -T0; else dpkg-deb --fsys-tarfile "$deb"; fi |
            tar -x -C "$new" --keep-directory-symlink --no-same-owner "${skip[@]/#/--exclude=}" -f -
    done
}

# Every program and library of Swift looks for the C library at its final place in the tree. DT_RPATH, because
# DT_RUNPATH does not reach the libraries of a library.
relocate() {
    local new=$1 file old
    patch() { "$new/usr/lib/$triplet/$loader" --library-path "$new/usr/lib/$triplet" "$new/usr/bin/patchelf" "$@"; }
    find "$new/usr/libexec/swift" -type f \( -perm -u+x -o -name '*.so*' \) | while read -r file; do
        [ "$(head -c 4 "$file" | tail -c 3)" = ELF ] || continue
        old=$(patch --print-rpath "$file" 2>/dev/null) || continue # a static program has none
        patch --force-rpath --set-rpath "${old:+$old:}$libraries" "$file"
        if patch --print-interpreter "$file" >/dev/null 2>&1; then patch --set-interpreter "$libraries/$loader" "$file"; fi
    done
}

# What swiftc hands to clang for linking, so that all that is built starts on the machine as it is.
configure() {
    local new=$1 name
    for name in clang clang++; do
        printf '%s\n' "--sysroot=$tree" -fuse-ld=lld "-Wl,--dynamic-linker=$libraries/$loader" -Wl,--disable-new-dtags \
            "-Wl,-rpath,$libraries" >"$new/$swift_bin/$name.cfg"
    done
    echo '{"Version":"1.0","CanonicalName":"linux"}' >"$new/SDKSettings.json" # without it every call warns
    {
        echo "# Source this in a subshell only: it puts Swift's own clang first."
        echo "export SDKROOT='$tree' PATH='$tree/$swift_bin':\"\$PATH\""
    } >"$new/env.sh"
}

try_out() (
    trial=$(mktemp -d "$cache/new.XXXXXX")
    trap 'rm -rf "$trial"' EXIT
    export TMPDIR=$trial HOME=$trial
    unset XDG_CACHE_HOME
    . "$tree/env.sh"
    echo 'import Foundation; print("tried", [1, 2].map { $0 + 1 }, Date(timeIntervalSince1970: 0))' >"$trial/main.swift"
    swiftc "$trial/main.swift" -o "$trial/main" && "$trial/main" | grep -q 'tried \[2, 3\] 1970'
)

whole && answer
exec 9>"$cache/lock"
flock -w 1800 9 || stop "another run holds $cache/lock"
whole && answer
rm -rf "$cache"/new.* # left by a run that was killed; the lock is ours, so nobody writes there
download
new=$(mktemp -d "$cache/new.XXXXXX")
unpack_to "$new"
relocate "$new"
configure "$new"
rm -rf "$tree"
mv "$new" "$tree"
try_out || stop "the unpacked tool chain does not work"
echo "$tree" >"$tree/.whole.new" && mv "$tree/.whole.new" "$tree/.whole"
rm -rf "$apt" # the tree replaces packages and lists
for old in "$cache/$suite"-*; do [ "$old" = "$tree" ] || echo "made by another recipe, may be deleted: $old"; done
answer
