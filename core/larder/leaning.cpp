#include "core/larder/leaning.h"

namespace stillroom::larder {

Leaning leaningOn(const Larder& larder, base::IngredientId ingredient) {
    Leaning found;
    for (const Ingredient* each : larder.all()) {
        if (each->id == ingredient) continue;
        if (each->houseBottle == ingredient) found.pouredFor.push_back(each->id);
        if (each->kind == ingredient) found.bottles.push_back(each->id);
        if (each->gotFrom && each->gotFrom->of == ingredient) found.gotFrom.push_back(each->id);
    }
    return found;
}

} // namespace stillroom::larder
