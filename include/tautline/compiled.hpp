#pragma once
/// @file
/// The one file of a compiled program that holds Tautline's larger functions for `double`: a source file with this include
/// and nothing else. Included by name only.
///
/// All files of the program, this one too, are compiled with `TAUTLINE_COMPILED` defined; the others then take from here
/// what they would have compiled again. `tautline_compile(TARGET)` of the CMake package does both. Without it Tautline is
/// headers only.

#ifdef TAUTLINE_VERSION
#error "compiled.hpp must be the only header of Tautline in its file: nothing of it may be included before"
#endif
#ifndef TAUTLINE_COMPILED
#error "Define TAUTLINE_COMPILED for all files of the program (-DTAUTLINE_COMPILED): else the others compile it all again"
#endif
#define TAUTLINE_COMPILES
#include "job.hpp"
