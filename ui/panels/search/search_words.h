#pragma once

#include "core/store/search_of_book.h"
#include "ui/widgets/pick_many.h"

#include <QString>
#include <QStringList>

namespace stillroom::ui {

// "reason of r3"; "" for None. `revision` is its label, empty where the field is not of one.
QString searchFieldWord(store::SearchField field, const QString& revision = {});
QString searchStateWord(store::SearchState state);
std::vector<PickMany::Choice> searchStateChoices();
std::vector<PickMany::Choice> styleChoices();
std::vector<PickMany::Choice> allergenChoices();

// "7 drinks", "nothing".
QString foundWords(const store::SearchAnswer& answer, std::size_t shown);
// “lemmon” is not in the book; read as lemon. Empty when every word is.
QString readAsWords(const store::SearchAnswer& answer);
// Why there is nothing, and what to do.
QString nothingFoundWords(const store::SearchRequest& request);
// "Still reading: 2,140 of 3,000 drinks." Empty when all is read.
QString stillReadingWords(int unread, int drinks, bool readOnly);

} // namespace stillroom::ui
