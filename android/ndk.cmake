# For PROJ on a phone: the two options that core/cmake sets (its database from inside the library and nowhere else), then the
# NDK's own tool chain file. cargo-ndk tells the ABI, the API level and where the NDK's system root is. Used by android/core.
foreach(told ANDROID_ABI ANDROID_PLATFORM CARGO_NDK_SYSROOT_PATH)
  if(NOT DEFINED ENV{${told}})
    message(FATAL_ERROR "${told} is not set: build the core with android/core, which runs cargo-ndk.")
  endif()
endforeach()
set(ANDROID_ABI "$ENV{ANDROID_ABI}")
set(ANDROID_PLATFORM "$ENV{ANDROID_PLATFORM}")
include("${CMAKE_CURRENT_LIST_DIR}/../core/cmake/proj.cmake")
# The system root is toolchains/llvm/prebuilt/HOST/sysroot of the NDK.
include("$ENV{CARGO_NDK_SYSROOT_PATH}/../../../../../build/cmake/android.toolchain.cmake")
