#include "core/larder/fact_entry.h"

namespace stillroom::larder {

Fact withValue(const std::optional<Fact>& was, double value, const std::string& today) {
    Fact fact = was.value_or(Fact::single(value, SourceKind::Label, "label"));
    const bool holds = fact.low < fact.high && fact.low <= value && value <= fact.high;
    if (!holds) fact.low = fact.high = value;
    fact.typical = value;
    if (fact.sourceKind == SourceKind::Handbook || fact.sourceKind == SourceKind::Assumed) {
        fact.sourceKind = SourceKind::Label;
        fact.source = "label";
    }
    fact.on = today;
    return fact;
}

Fact withRange(const Fact& was, double low, double high) {
    Fact fact = was;
    fact.low = low;
    fact.high = high;
    return fact;
}

Fact withSayer(const Fact& was, SourceKind kind) {
    Fact fact = was;
    if (was.source.empty() || was.source == sourceKindId(was.sourceKind) ||
        was.sourceKind == SourceKind::Handbook)
        fact.source = sourceKindId(kind);
    fact.sourceKind = kind;
    return fact;
}

} // namespace stillroom::larder
