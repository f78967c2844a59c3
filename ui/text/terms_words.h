#pragma once

#include "core/larder/cost_of.h"
#include "core/larder/larder.h"

#include <QString>

namespace stillroom::ui {

// How a thing is bought, used and kept, in words.
QString shortened(const QString& typed);                // quoted in a sentence: at most 40 letters
QString percentText(const quantity::Rational& percent); // "33.33"
// "85 % of what is bought is used."
QString usedSentence(const larder::Ingredient& ingredient);
// Who else is got from the same purchase, and whether they take its whole price together.
QString takersSentence(const larder::Larder& larder, const larder::Ingredient& ingredient);
// What a usable unit comes to: "Comes to € 1.00 / 100 ml." Why it does not, else.
QString comesToSentence(const larder::Larder& larder, const larder::Ingredient& ingredient,
                        const larder::PriceQuestion& question);
// "Two drinks …, in one draft and 3 kept revisions."
QString usesSentence(int by, int drafts, int revisions);
// What is published of the thing by itself: days, storage, source. Empty: the table is silent.
QString publishedKeeping(const larder::Ingredient& ingredient);

} // namespace stillroom::ui
