#pragma once

#include "core/larder/facts.h"

#include <optional>
#include <string>

// What becomes of a fact when somebody writes over a part of it.
namespace stillroom::larder {

// Another usual value. A range that holds it stays; one that does not was another figure's and goes. A figure
// that only the handbook or nobody stood for is the label's from now on.
Fact withValue(const std::optional<Fact>& was, double value, const std::string& today);
Fact withRange(const Fact& was, double low, double high);
// Somebody else says so. Words that only named the old sayer go with it.
Fact withSayer(const Fact& was, SourceKind kind);

} // namespace stillroom::larder
