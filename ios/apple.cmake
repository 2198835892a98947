# For PROJ on an iPhone: the two options that core/cmake sets (its database from inside the library and nowhere else), and the SDK,
# which CMake would take to be the phone's for the simulator too. Cargo names the target to build scripts. Used by xcframework.
set(CMAKE_SYSTEM_NAME iOS)
set(CMAKE_OSX_ARCHITECTURES arm64)
if("$ENV{TARGET}" STREQUAL "aarch64-apple-ios")
  set(CMAKE_OSX_SYSROOT iphoneos)
elseif("$ENV{TARGET}" STREQUAL "aarch64-apple-ios-sim")
  set(CMAKE_OSX_SYSROOT iphonesimulator)
else()
  message(FATAL_ERROR "No build of PROJ for \"$ENV{TARGET}\": build the library with ios/xcframework.")
endif()
include("${CMAKE_CURRENT_LIST_DIR}/../core/cmake/proj.cmake")
