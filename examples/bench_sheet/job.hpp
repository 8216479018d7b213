#pragma once
/// @file
/// A job file: an instrument and its strings as found, what is planned and what is wanted, in the trade's words. The
/// sections of the instrument are the library's own aggregates; strings are written as a repairer orders them.

#include <functional>
#include <map>

#include <tautline/setup/tolerance.hpp>

#include "mistakes.hpp"
#include "planned.hpp"

namespace bench_sheet {

/// Everything a job file holds, what is planned aside.
struct job {
    std::string title{};
    tl::field<tl::frequency<>> a4 = 440 * tl::units::Hz;
    tl::instrument instrument{};
    tl::board_details details{};
    std::vector<ordered_string> strings{};
    tl::wishes wanted{};
    std::vector<named_object> objects{};
    std::vector<correlated_keys> correlated{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("title", self.title...);
        visit("a4", tl::between(200 * tl::units::Hz, 900 * tl::units::Hz).fair_default("ISO 16"), self.a4...);
        tl::instrument::describe(visit, self.instrument...);
        visit("details", self.details...);
        visit("strings", self.strings...);
        visit("wanted", self.wanted...);
        visit("objects", self.objects...);
        visit("correlated", self.correlated...);
    }
};

/// What is kept of a file beside the values: where each key stands, and how sure a measured value is.
struct file_notes {
    std::map<std::string, std::uint32_t> lines{};
    std::map<std::string, double> doubts{}; ///< standard uncertainty in SI, by path
};

/// What became of reading a job file: a job to work on, or what is wrong with the file.
struct read_job {
    job found{};
    tl::stringing strung{};
    std::optional<planned_part> planned{};
    std::optional<tl::stringing> planned_strings{};
    /// Writes what the file plans beside work over an instrument: nut, saddle, tailpiece and the like.
    std::function<void(tl::instrument&)> lay_plan_over{};
    bool wants = false; ///< the file says what is wanted
    std::vector<mistake> mistakes{};
    file_notes file{};
};

/// Largest job file that is read; a real one has some ten thousand characters.
inline constexpr std::size_t longest_job_file = 1 << 20;

/// The line of a key, or of the nearest section above it; 0 where there is neither.
std::uint32_t line_near(std::string path, const file_notes& file);

/// Reads a job from the text of a file. Nothing of it is usable while there are mistakes.
read_job parse_job(std::string_view text);

} // namespace bench_sheet
