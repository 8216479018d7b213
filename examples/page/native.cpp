/// @file
/// page_answers: the page's answers without a browser. Reads questions from standard input, each ended by a line with a
/// single full stop, and writes one line of JSON for each.

#include <iostream>

#include "../text/printed.hpp"
#include "answers.hpp"

int main() {
    std::string asked, line, out;
    while (std::getline(std::cin, line)) {
        if (line != ".") {
            asked += line + "\n";
            continue;
        }
        asked.pop_back(); // the end of the last line is not of the question
        out += page::answer(asked) + "\n";
        asked.clear();
    }
    return safe_text::printed(out, "page_answers");
}
