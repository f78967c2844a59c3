#pragma once

#include "core/larder/ingredient.h"
#include "core/preparation/findings.h"

namespace stillroom::ui {

// Beside which part of the sheet a finding is said.
enum class FindingPlace : unsigned char { Name, Facts, Packs, Lost, Gives, Share, Kinship, Shelf };
FindingPlace placeOfFinding(const preparation::Finding& finding, const larder::Ingredient& of);

} // namespace stillroom::ui
