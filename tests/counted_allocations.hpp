#pragma once
// Counts every allocation of the program that includes it, in one of its files only.
#include <cstdlib>
#include <new>

namespace {
std::size_t allocations = 0;
}

// Not inlined: g++ would otherwise see free() beside new and warn.
[[gnu::noinline]] void* operator new(std::size_t size) {
    ++allocations;
    if (void* p = std::malloc(size == 0 ? 1 : size)) { return p; }
    throw std::bad_alloc();
}
// Sorting asks for its scratch this way; all ways must match the one way of giving back.
[[gnu::noinline]] void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
    ++allocations;
    return std::malloc(size == 0 ? 1 : size);
}
[[gnu::noinline]] void operator delete(void* p) noexcept { std::free(p); }
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept { std::free(p); }
