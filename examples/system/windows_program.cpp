#include <cstdio>

#include <fcntl.h>
#include <io.h>
#include <windows.h>
// after windows.h
#include <shellapi.h>

#include "program.hpp"

namespace outside {

namespace {

std::string narrow(std::wstring_view wide) {
    const int letters = static_cast<int>(wide.size());
    std::string text(
        static_cast<std::size_t>(::WideCharToMultiByte(CP_UTF8, 0, wide.data(), letters, nullptr, 0, nullptr, nullptr)),
        '\0');
    ::WideCharToMultiByte(CP_UTF8, 0, wide.data(), letters, text.data(), static_cast<int>(text.size()), nullptr, nullptr);
    return text;
}
std::wstring widened(std::string_view text) {
    const int bytes = static_cast<int>(text.size());
    std::wstring wide(static_cast<std::size_t>(::MultiByteToWideChar(CP_UTF8, 0, text.data(), bytes, nullptr, 0)), L'\0');
    ::MultiByteToWideChar(CP_UTF8, 0, text.data(), bytes, wide.data(), static_cast<int>(wide.size()));
    return wide;
}

} // namespace

program::program(int count, const char* const* arguments) : code_page_(::GetConsoleOutputCP()) {
    int wide_count = 0;
    if (wchar_t** const wide = ::CommandLineToArgvW(::GetCommandLineW(), &wide_count); wide != nullptr) {
        for (int i = 0; i < wide_count; ++i) { arguments_.push_back(narrow(wide[i])); }
        ::LocalFree(wide);
    } else {
        arguments_.assign(arguments, arguments + count);
    }
    ::SetConsoleOutputCP(CP_UTF8);
    ::_setmode(::_fileno(stdout), _O_BINARY);
    ::_setmode(::_fileno(stderr), _O_BINARY);
}
program::~program() {
    std::fflush(stdout);
    if (code_page_ != 0) { ::SetConsoleOutputCP(code_page_); }
}
bool program::shows_bold() {
    const HANDLE out = ::GetStdHandle(STD_OUTPUT_HANDLE);
    DWORD mode = 0;
    constexpr DWORD understands_escapes = 0x0004; // ENABLE_VIRTUAL_TERMINAL_PROCESSING; older headers lack the name
    return ::GetConsoleMode(out, &mode) != 0 && ::SetConsoleMode(out, mode | understands_escapes) != 0;
}

std::filesystem::path path_of(std::string_view text) { return widened(text); }
std::string text_of(const std::filesystem::path& path) { return narrow(path.wstring()); }

} // namespace outside
