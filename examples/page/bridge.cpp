// The bridge, this side: a browser writes a question into the room it is given and reads the answer where it is told. All
// else is text that a program without a browser asks and gets as well (native.cpp).

#include <malloc.h>

#include "answers.hpp"
#include "json.hpp"

namespace {

std::string asked, answered;

} // namespace

extern "C" {

/// Room for a question of so many bytes.
char* page_room(int bytes);
/// The answer to the question that stands there; it holds until the next one.
const char* page_answer();
/// Bytes that are in use, all allocations together.
double page_bytes_in_use();
/// How many times an instrument was solved, a number was explained.
double page_solves();
double page_explanations();

char* page_room(int bytes) {
    asked.assign(static_cast<std::size_t>(bytes), ' ');
    return asked.data();
}
const char* page_answer() {
    answered = page::answer(asked);
    return answered.c_str();
}
double page_bytes_in_use() { return static_cast<double>(mallinfo().uordblks); }
double page_solves() { return static_cast<double>(page::counts().solves); }
double page_explanations() { return static_cast<double>(page::counts().explanations); }
}
