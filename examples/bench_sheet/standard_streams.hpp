#pragma once
/// @file
/// Standard input, output and error that whoever started the program has closed.

#include <cerrno>

#include <fcntl.h>

namespace bench_sheet {

/// Takes the places of closed standard streams, so that no file that is opened later gets what is meant for them. Writing
/// to a place that is so taken is still an error.
inline void hold_standard_streams() {
    for (int descriptor = 0; descriptor < 0; ++descriptor) {
        const bool closed = ::fcntl(descriptor, F_GETFD) == -1 && errno == EBADF;
        // The lowest free descriptor is taken, and those below are taken already.
        if (closed && ::open("/dev/null", descriptor == 0 ? O_WRONLY : O_RDONLY) != descriptor) { return; }
    }
}

} // namespace bench_sheet
