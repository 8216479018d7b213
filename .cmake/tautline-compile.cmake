# tautline_compile(TARGET [PRECOMPILED HEADER])
#
# The target holds Tautline's larger functions for double, in one file that is written into the build folder and compiled with
# the target's own flags. The target's other files, and those of all that link with it if it is a library, take the functions
# from there instead of compiling them again. PRECOMPILED, such as tautline/tautline.hpp: this header is read once for all files of each of
# these targets, and stands above them.
function(tautline_compile target)
    cmake_parse_arguments(PARSE_ARGV 1 asked "" "PRECOMPILED" "")
    if(asked_UNPARSED_ARGUMENTS)
        message(FATAL_ERROR "tautline_compile knows PRECOMPILED HEADER only, not ${asked_UNPARSED_ARGUMENTS}")
    endif()
    set(unit ${CMAKE_CURRENT_BINARY_DIR}/tautline_of_${target}.cpp)
    file(CONFIGURE OUTPUT ${unit} CONTENT "#include <tautline/compiled.hpp>\n")
    target_sources(${target} PRIVATE ${unit})
    set_source_files_properties(${unit} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON SKIP_PRECOMPILE_HEADERS ON)
    get_target_property(type ${target} TYPE)
    if(type STREQUAL EXECUTABLE)
        set(for PRIVATE)
    else()
        set(for PUBLIC)
    endif()
    target_link_libraries(${target} ${for} tautline::tautline)
    target_compile_definitions(${target} ${for} TAUTLINE_COMPILED)
    if(asked_PRECOMPILED)
        target_precompile_headers(${target} ${for} <${asked_PRECOMPILED}>)
    endif()
endfunction()
