#pragma once

#include <string>
#include <string_view>

// Parts of sentences that both the verdict and the plan of a panel use.
namespace stillroom::tasting {

std::string percent(double share);                                           // "5 %", "6.6 %", "under 0.1 %"
std::string counted(int count, std::string_view one, std::string_view many); // "1 cup", "2 cups"

} // namespace stillroom::tasting
