# What `cmake --install` puts where, and the Debian package made of it.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

install(DIRECTORY include/ DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} FILES_MATCHING PATTERN "*.hpp")
install(TARGETS tautline EXPORT tautline-targets INCLUDES DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})

set(config_folder ${CMAKE_INSTALL_DATADIR}/cmake/tautline)
install(EXPORT tautline-targets NAMESPACE tautline:: DESTINATION ${config_folder})
configure_package_config_file(.cmake/tautline-config.cmake.in tautline-config.cmake INSTALL_DESTINATION ${config_folder})
# While the major version is 0, a minor version may change interfaces.
if(PROJECT_VERSION_MAJOR EQUAL 0)
    set(compatible SameMinorVersion)
else()
    set(compatible SameMajorVersion)
endif()
write_basic_package_version_file(tautline-config-version.cmake COMPATIBILITY ${compatible} ARCH_INDEPENDENT)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/tautline-config.cmake ${CMAKE_CURRENT_BINARY_DIR}/tautline-config-version.cmake
              .cmake/tautline-compile.cmake
        DESTINATION ${config_folder})

# The prefix counts from the file itself, so that an installed tree can be moved, and packed for another prefix.
set(pc_folder ${CMAKE_INSTALL_DATADIR}/pkgconfig)
file(RELATIVE_PATH TAUTLINE_PREFIX_FROM_PC /prefix/${pc_folder} /prefix)
string(REGEX REPLACE "/$" "" TAUTLINE_PREFIX_FROM_PC "${TAUTLINE_PREFIX_FROM_PC}")
if(IS_ABSOLUTE "${CMAKE_INSTALL_INCLUDEDIR}")
    set(TAUTLINE_PC_INCLUDEDIR "${CMAKE_INSTALL_INCLUDEDIR}")
else()
    set(TAUTLINE_PC_INCLUDEDIR "\${prefix}/${CMAKE_INSTALL_INCLUDEDIR}")
endif()
configure_file(.cmake/tautline.pc.in tautline.pc @ONLY)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/tautline.pc DESTINATION ${pc_folder})

if(NOT PROJECT_IS_TOP_LEVEL)
    return()
endif()

# A list of our own of what stands where: CMake's would be overwritten by CPack, which installs into a folder of its own.
install(CODE "
    if(NOT \"\$ENV{DESTDIR}\" MATCHES _CPack_Packages)
        list(TRANSFORM CMAKE_INSTALL_MANIFEST_FILES PREPEND \"\$ENV{DESTDIR}\" OUTPUT_VARIABLE installed)
        list(JOIN installed \"\\n\" installed)
        file(WRITE \"${CMAKE_CURRENT_BINARY_DIR}/installed.txt\" \"\${installed}\")
    endif()")
configure_file(.cmake/uninstall.cmake.in uninstall.cmake @ONLY)
add_custom_target(uninstall COMMAND ${CMAKE_COMMAND} -P ${CMAKE_CURRENT_BINARY_DIR}/uninstall.cmake VERBATIM)

# cpack -G DEB
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_PACKAGE_CONTACT "Tautline maintainers <maintainers@tautline.invalid>" CACHE STRING "Who maintains the package")
set(CPACK_DEBIAN_PACKAGE_NAME libtautline-dev)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_ARCHITECTURE all)
set(CPACK_DEBIAN_PACKAGE_SECTION libdevel)
# Debian carries newer versions of Boost beside the default one, which exclude it.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "libboost-dev (>= ${TAUTLINE_LEAST_BOOST}) | libboost1.81-dev")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "cmake, pkgconf")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "Computes for repairers of fretted instruments, before wood is cut: string
tension, bow of the neck, heights and clearances at every fret, forces at nut,
bridge and tailpiece, intonation, the season's effect, and how sure each
number is. Units are in the types.

This package holds the headers, and files for CMake and pkg-config.")
# Debian wants the package's own changelog. It goes into the package alone, not where `cmake --install` puts things.
string(TIMESTAMP packed "%a, %d %b %Y %H:%M:%S +0000" UTC)
file(WRITE ${CMAKE_CURRENT_BINARY_DIR}/changelog
"libtautline-dev (${PROJECT_VERSION}) UNRELEASED; urgency=medium

  * Packed from the sources; docs/changelog.md there says what changed.

 -- ${CPACK_PACKAGE_CONTACT}  ${packed}
")
install(CODE "
    if(\"\$ENV{DESTDIR}\" MATCHES _CPack_Packages)
        execute_process(COMMAND gzip -9nkf changelog WORKING_DIRECTORY \"${CMAKE_CURRENT_BINARY_DIR}\" COMMAND_ERROR_IS_FATAL ANY)
        file(INSTALL \"${CMAKE_CURRENT_BINARY_DIR}/changelog.gz\"
             DESTINATION \"\${CMAKE_INSTALL_PREFIX}/share/doc/libtautline-dev\")
    endif()")
include(CPack)
