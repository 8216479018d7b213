#pragma once
/// @file
/// Functions that are compiled where they are called, or once for a whole program.

#include "../version.hpp"

namespace tautline {

/// Marks a function that takes one kind of number only: `template <class = when_used>`. As a template it is compiled
/// only where it is called. An inline function would be compiled wherever its header is included, with everything that
/// it calls.
struct when_used;

/// A type that such a function takes as dependent, so that its use is compiled only where the function is called. A
/// type taken by its plain name is compiled where the header is read, with all its members and with every function that
/// the body calls with it.
template <class T, class When>
struct known_when_used {
    using type = T; ///< the type itself
};
/// Short form of it: `template <class When = when_used> void print(const when_used_t<setup, When>& s)`.
template <class T, class When>
using when_used_t = typename known_when_used<T, When>::type;

} // namespace tautline

/// Written below a function template: a compiled program holds this instance of it in one file and calls it from the
/// others. Without `TAUTLINE_COMPILED` it is empty, and Tautline is header-only; `compiled.hpp` tells how to build the
/// compiled edition.
#if !defined(TAUTLINE_COMPILED)
#define TAUTLINE_HELD(...)
#elif defined(TAUTLINE_COMPILES)
#define TAUTLINE_HELD(...) template __VA_ARGS__;
#else
#define TAUTLINE_HELD(...) extern template __VA_ARGS__;
#endif

#ifdef TAUTLINE_COMPILED
// A file compiled against one version does not link with the compiled library of another version, and two such
// libraries do not link together.
#define TAUTLINE_TAG_OF(a, b, c) tautline_compiled_##a##_##b##_##c
#define TAUTLINE_TAG(a, b, c) TAUTLINE_TAG_OF(a, b, c)
extern "C" {
extern const char TAUTLINE_TAG(TAUTLINE_VERSION_MAJOR, TAUTLINE_VERSION_MINOR, TAUTLINE_VERSION_PATCH);
#ifdef TAUTLINE_COMPILES
extern const char tautline_compiled_once;
const char tautline_compiled_once = 0;
const char TAUTLINE_TAG(TAUTLINE_VERSION_MAJOR, TAUTLINE_VERSION_MINOR, TAUTLINE_VERSION_PATCH) = 0;
#endif
}
namespace tautline {
namespace {
[[gnu::used]] const char* const compiled_of =
    &TAUTLINE_TAG(TAUTLINE_VERSION_MAJOR, TAUTLINE_VERSION_MINOR, TAUTLINE_VERSION_PATCH);
} // namespace
} // namespace tautline
#undef TAUTLINE_TAG
#undef TAUTLINE_TAG_OF
#endif
