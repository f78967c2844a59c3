#pragma once

// Catch2 version 2 keeps everything in one header, version 3 in another; both compile.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
#endif
