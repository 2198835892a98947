# Run once PROJ's own project() is known: its register is made smaller (register.sql) right after it is made.
set(making ${CMAKE_SOURCE_DIR}/data/generate_proj_db.cmake)
file(READ ${making} made)
if(NOT made MATCHES "register.sql")
  file(APPEND ${making} "
execute_process(COMMAND \"\${EXE_SQLITE3}\" -bail \"\${PROJ_DB}\" INPUT_FILE \"${CMAKE_CURRENT_LIST_DIR}/register.sql\"
  WORKING_DIRECTORY \"\${DATA_BINARY_DIR}\" COMMAND_ERROR_IS_FATAL ANY)
")
endif()
