#pragma once

#include <optional>
#include <string>
#include <vector>

namespace stillroom::larder {

// What the US list of nine makes of European classes: celery is none of them, gluten may be wheat.
struct UsList {
    std::vector<std::string> contains, mayContain; // in the order of the US list
};
// nullopt: the same classes, and nothing to say beside the European ones.
std::optional<UsList> usWhereItDiffers(const std::vector<std::string>& euIds);

} // namespace stillroom::larder
