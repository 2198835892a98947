#!/usr/bin/env bash
# res/ and AndroidManifest.xml -> resources.ap_, R.java, and the file that leads Robolectric to them. On a phone build AGP does this.
# Usage: link-resources.sh MAIN OUT FRAMEWORK AAPT2 PACKAGE MIN_SDK TARGET_SDK SHEET; the sheet comes with the app as an asset.
set -euo pipefail
main=$1 out=$2 framework=$3 aapt2=$4 package=$5 min=$6 target=$7 sheet=$8
chmod +x "$aapt2"
mkdir -p "$out/r" "$out/robolectric/com/android/tools"
# What AGP writes into the manifest from its build file.
sed -e "s|<manifest |&package=\"$package\" android:versionCode=\"1\" android:versionName=\"0.1\" |" \
    -e "s|<application|<uses-sdk android:minSdkVersion=\"$min\" android:targetSdkVersion=\"$target\"/> &|" \
    "$main/AndroidManifest.xml" > "$out/AndroidManifest.xml"
mkdir -p "$out/assets" && cp "$sheet" "$out/assets/"
"$aapt2" compile --dir "$main/res" -o "$out/res.zip"
"$aapt2" link -I "$framework" -A "$out/assets" --manifest "$out/AndroidManifest.xml" --java "$out/r" -o "$out/resources.ap_" "$out/res.zip"
printf '%s\n' "android_merged_manifest=$out/AndroidManifest.xml" "android_resource_apk=$out/resources.ap_" \
  "android_custom_package=$package" > "$out/robolectric/com/android/tools/test_config.properties"
