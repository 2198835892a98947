# PROJ reads its database from inside the library and from nowhere else, so that
# a phone needs no files beside the library and a foreign PROJ_DATA cannot break it.
set(USE_ONLY_EMBEDDED_RESOURCE_FILES ON CACHE BOOL "" FORCE)
set(EMBED_PROJ_DATA_PATH OFF CACHE BOOL "" FORCE)
# Its sources are compiled several at a time, which PROJ allows for since 9.4: most of the time goes into the headers that they share.
set(CMAKE_UNITY_BUILD ON CACHE BOOL "" FORCE)
# What of its database cannot be used here is left out.
set(CMAKE_PROJECT_PROJ_INCLUDE ${CMAKE_CURRENT_LIST_DIR}/register.cmake)
