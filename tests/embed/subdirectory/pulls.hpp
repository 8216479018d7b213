#pragma once
#include <tautline/strings/tension.hpp>

tautline::force<> pull_of_first_string(tautline::length<> scale_length);
