#pragma once

#include "core/exchange/recipe_reader.h"

namespace stillroom::exchange {

// What only the whole recipe says, once every line has its place: lines written twice, the glass and the
// technique of the method's words, how many drinks it makes, and what is odd about its size.
void settleWhole(RecipeRead& read);

} // namespace stillroom::exchange
