# What all toolchains here share. CMAKE_FIND_ROOT_PATH is a folder with the header-only libraries that the tests need and
# nothing else: the machine's own headers and libraries are another system's. `.ci/platforms` makes it.
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
set(CMAKE_FIND_ROOT_PATH_MODE_LIBRARY ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_INCLUDE ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_PACKAGE ONLY)
set(CMAKE_PREFIX_PATH ${CMAKE_FIND_ROOT_PATH})
set(ENV{PKG_CONFIG_LIBDIR} "${CMAKE_FIND_ROOT_PATH}/lib/pkgconfig")
# One file that needs no other: it runs where no library of its system is installed.
set(CMAKE_EXE_LINKER_FLAGS_INIT "-static")
