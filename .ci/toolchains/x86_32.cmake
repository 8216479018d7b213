# Linux on x86 of 32 bits, with the x87 unit as Debian's compiler takes it; an x86-64 machine runs it as it is.
set(CMAKE_SYSTEM_NAME Linux)
set(CMAKE_SYSTEM_PROCESSOR i686)
set(CMAKE_CXX_COMPILER i686-linux-gnu-g++)
include(${CMAKE_CURRENT_LIST_DIR}/cross.cmake)
