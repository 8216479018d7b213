#pragma once
/// @file
/// fontconfig, which cairo finds its fonts with, links its patterns by offsets where others keep pointers. A leak check
/// cannot follow these and takes what is still in use for lost; so it is told.

#if defined(__SANITIZE_ADDRESS__)
#define DRAWING_LEAKS_ARE_CHECKED
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define DRAWING_LEAKS_ARE_CHECKED
#endif
#endif

#ifdef DRAWING_LEAKS_ARE_CHECKED
/// Asked by the address sanitizer of the whole program.
extern "C" __attribute__((visibility("default"), used)) const char* __lsan_default_suppressions() {
    return "leak:libfontconfig.so\n";
}
#undef DRAWING_LEAKS_ARE_CHECKED
#endif
