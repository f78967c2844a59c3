#pragma once

#include <string_view>

namespace stillroom::base {

// Files carried inside the program: those of resources/ by their path below it ("handbook/ingredients.json"),
// and the sample by its own ("sample-data/nine-lights.json"). Empty when there is no such file.
std::string_view embedded(std::string_view path);

} // namespace stillroom::base
