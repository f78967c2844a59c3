#pragma once

#include "core/base/id.h"

#include <functional>
#include <optional>

class QWidget;

namespace stillroom::ui {

class BlindDesk;

// A kept revision; or the draft in hand, to be kept first.
struct ProductChoice {
    std::optional<base::RevisionId> revision;
};

// Asks for a revision of the drink in hand or, by way of its name, of any other drink.
void chooseProduct(QWidget& parent, BlindDesk& desk, const std::function<void(const ProductChoice&)>& take);

} // namespace stillroom::ui
