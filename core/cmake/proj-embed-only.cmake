# PROJ reads its database from inside the library and from nowhere else, so that
# a phone needs no files beside the library and a foreign PROJ_DATA cannot break it.
set(USE_ONLY_EMBEDDED_RESOURCE_FILES ON CACHE BOOL "" FORCE)
set(EMBED_PROJ_DATA_PATH OFF CACHE BOOL "" FORCE)
