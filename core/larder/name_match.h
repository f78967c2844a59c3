#pragma once

#include "core/larder/larder.h"
#include "core/larder/name_index.h"

#include <functional>

namespace stillroom::larder {

class Handbook;

// The handbook's names, indexed once beside the handbook itself.
struct HandbookNames {
    NameIndex index;
    std::unordered_map<std::string, std::size_t> sharedByFolded; // into Handbook::sharedNames()
    std::unordered_map<std::string, std::size_t> sharedByKey;
};
const HandbookNames& handbookNames();

// Where names are looked for: the own ingredients, and the handbook's kinds below them (or none).
struct NameSources {
    const NameIndex* own = nullptr;
    const HandbookNames* handbook = nullptr;
    // An ingredient by id, own ones first.
    std::function<const Ingredient*(base::IngredientId)> find;
};

NameMatch matchName(std::string_view written, const NameSources& sources);

} // namespace stillroom::larder
