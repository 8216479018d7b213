// Draws the pictures of the documents: pictures FOLDER [pdf]
#include <cstdio>
#include <cstring>
#include <exception>
#include <filesystem>

#include <file.hpp>

#include "pictures.hpp"

int main(int count, char** arguments) try {
    if (count < 2 || count > 3) {
        std::fputs("pictures FOLDER [pdf]\n", stderr);
        return 2;
    }
    const std::filesystem::path folder = arguments[1];
    const bool as_pdf = count == 3 && std::strcmp(arguments[2], "pdf") == 0;
    auto all = pictures::of_strings();
    for (const auto& more :
         {pictures::of_an_instrument(), pictures::of_measuring_necks(), pictures::of_measuring_bridges()}) {
        all.insert(all.end(), more.begin(), more.end());
    }
    for (const auto& one : all) {
        const auto file = folder / (one.name + (as_pdf ? ".pdf" : ".png"));
        outside::write_file(file, as_pdf ? drawing::pdf_of(std::span(&one.page, 1), one.name)
                                         : drawing::png_of(one.page, one.dots_per_inch));
        std::printf("%s\n", file.filename().string().c_str());
    }
    return 0;
} catch (const std::exception& wrong) {
    std::fprintf(stderr, "%s\n", wrong.what());
    return 1;
}
