#pragma once
/// @file
/// Functions compiled where they are called, or once for a whole program.

#include "../version.hpp"

namespace tautline {

/// Marks a function that takes one kind of number only: `template <class = when_used>`. As a template it is compiled where
/// somebody calls it. As an inline function it would be wherever its header is included, with all that it solves.
struct when_used;

/// A type that such a function learns only where it is called, so that what it does with it is compiled there, too. Taken
/// by its real name, a type is worked out where the header is read, with all its members, and so is every function that the
/// body calls with it.
template <class T, class When>
struct known_when_used {
    using type = T; ///< the type itself
};
/// The same for short: `template <class When = when_used> void print(const when_used_t<setup, When>& s)`.
template <class T, class When>
using when_used_t = typename known_when_used<T, When>::type;

} // namespace tautline

/// Below a function template: that a compiled program holds this instance of it in one file, and calls it from the others.
/// Without `TAUTLINE_COMPILED` it is nothing, and Tautline is headers only; `compiled.hpp` says how to get the other.
#if !defined(TAUTLINE_COMPILED)
#define TAUTLINE_HELD(...)
#elif defined(TAUTLINE_COMPILES)
#define TAUTLINE_HELD(...) template __VA_ARGS__;
#else
#define TAUTLINE_HELD(...) extern template __VA_ARGS__;
#endif

#ifdef TAUTLINE_COMPILED
// A file that was compiled against one version does not link with what was compiled of another, nor two of these together.
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
