#pragma once

#include <string_view>

namespace stillroom::base {

// Files of resources/ carried inside the program, by their path below resources/
// ("handbook/ingredients.json"). Empty when there is no such file.
std::string_view embedded(std::string_view path);

} // namespace stillroom::base
