// The library's side of the bridge. A browser writes a question into the room from page_room and reads the text at
// page_answer. Both are plain text, so a program without a browser can ask the same (native.cpp).

#include <malloc.h>

#include "answers.hpp"
#include "json.hpp"

namespace {

std::string asked, answered;

} // namespace

extern "C" {

/// Makes room for a question of this many bytes.
char* page_room(int bytes);
/// The answer to the question in that room. It is valid until the next question.
const char* page_answer();
/// The bytes in use by all allocations.
double page_bytes_in_use();
/// The counts of solved instruments and of explained numbers.
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
