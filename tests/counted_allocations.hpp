#pragma once
// Counts every allocation of the program that includes it, in one of its files only, and the bytes that live at once.
#include <atomic>
#include <cstddef>
#include <cstdlib>
#include <new>

namespace {

std::atomic<std::size_t> allocations{0}, live_bytes{0}, most_live_bytes{0};

/// Memory with its size noted before it.
void* counted(std::size_t size) noexcept {
    constexpr std::size_t before = alignof(std::max_align_t);
    void* const p = std::malloc(before + size);
    if (p == nullptr) { return nullptr; }
    ++allocations;
    const std::size_t live = live_bytes += size;
    if (most_live_bytes < live) { most_live_bytes = live; } // of one thread at a time
    *static_cast<std::size_t*>(p) = size;
    return static_cast<char*>(p) + before;
}
void give_back(void* p) noexcept {
    if (p == nullptr) { return; }
    void* const start = static_cast<char*>(p) - alignof(std::max_align_t);
    live_bytes -= *static_cast<std::size_t*>(start);
    std::free(start);
}

} // namespace

// Not inlined: g++ would otherwise see free() beside new and warn.
[[gnu::noinline]] void* operator new(std::size_t size) {
    if (void* p = counted(size)) { return p; }
    throw std::bad_alloc();
}
// Sorting asks for its scratch this way; all ways must match the one way of giving back.
[[gnu::noinline]] void* operator new(std::size_t size, const std::nothrow_t&) noexcept { return counted(size); }
[[gnu::noinline]] void operator delete(void* p) noexcept { give_back(p); }
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept { give_back(p); }
