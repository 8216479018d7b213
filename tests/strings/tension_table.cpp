#include "../examples/small/tension_table/table.hpp"

#include <doctest/doctest.h>

#include <sstream>

using namespace tension_table;

namespace {
const table sample{{"gauge", "name, kind"}, {{"9.0", "a \"light\" one"}, {"10.5", "plain"}}};
}

TEST_CASE("tension table: CSV puts commas and quotes into quotes (RFC 4180)") {
    std::ostringstream out;
    write_csv(out, sample);
    CHECK(out.str() == "gauge,\"name, kind\"\n9.0,\"a \"\"light\"\" one\"\n10.5,plain\n");
}

TEST_CASE("tension table: text is set right, with a line under the head; Markdown has its rule") {
    std::ostringstream text, markdown;
    write_text(text, sample);
    CHECK(text.str() == "  gauge      name, kind\n"
                        "  ---------------------\n"
                        "    9.0   a \"light\" one\n"
                        "   10.5           plain\n");
    write_markdown(markdown, sample);
    CHECK(markdown.str() == "| gauge |    name, kind |\n"
                            "|------:|--------------:|\n"
                            "|   9.0 | a \"light\" one |\n"
                            "|  10.5 |         plain |\n");
}
