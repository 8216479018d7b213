# Windows on x86-64, by Debian's mingw with POSIX threads; wine runs it.
set(CMAKE_SYSTEM_NAME Windows)
set(CMAKE_SYSTEM_PROCESSOR x86_64)
set(CMAKE_CXX_COMPILER x86_64-w64-mingw32-g++-posix)
set(CMAKE_RC_COMPILER x86_64-w64-mingw32-windres)
# Files of tests joined as one have more sections than the usual kind of object may hold.
set(CMAKE_CXX_FLAGS_INIT "-Wa,-mbig-obj")
find_program(TAUTLINE_WINE NAMES wine64 wine PATHS /usr/lib/wine NO_CMAKE_FIND_ROOT_PATH)
if(TAUTLINE_WINE)
    set(CMAKE_CROSSCOMPILING_EMULATOR ${TAUTLINE_WINE})
endif()
include(${CMAKE_CURRENT_LIST_DIR}/cross.cmake)
