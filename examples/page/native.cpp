/// @file
/// page_answers: the page's answers without a browser. It reads questions from standard input; a line with a single full
/// stop ends each. It writes one line of JSON for each question.

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
        asked.pop_back(); // the last line break is not part of the question
        out += page::answer(asked) + "\n";
        asked.clear();
    }
    return safe_text::printed(out, "page_answers");
}
