#pragma once

#include "core/preparation/shopping.h"
#include "ui/theme/look.h"

#include <QString>

class QPrinter;

namespace stillroom::ui {

// A shopping list as a page: a table for each supplier, then what to make, what stands there and what is for
// a person to look at. The same for the screen and for paper; paper has dark ink on white.
QString shoppingHtml(const preparation::ShoppingList& list, const larder::Larder& larder, const Look& look);
// False: the printer did not take it.
bool printShopping(const preparation::ShoppingList& list, const larder::Larder& larder, const QString& title,
                   QPrinter& printer);

} // namespace stillroom::ui
