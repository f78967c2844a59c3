#include "core/exchange/pack_size.h"

#include "core/base/text.h"
#include "core/exchange/plain_number.h"
#include "core/quantity/measure.h"

#include <algorithm>
#include <array>
#include <string>

namespace stillroom::exchange {

namespace {

using larder::PackUnit;
using quantity::Measure;
using quantity::Rational;

struct UnitName {
    std::string_view word;
    Measure measure;
};
constexpr std::array<UnitName, 30> kUnits{{
    {"ml", Measure::Ml},        {"millilitre", Measure::Ml},   {"millilitres", Measure::Ml},
    {"cc", Measure::Ml},        {"cl", Measure::Cl},           {"dl", Measure::Dl},
    {"l", Measure::L},          {"litre", Measure::L},         {"litres", Measure::L},
    {"liter", Measure::L},      {"liters", Measure::L},        {"g", Measure::G},
    {"gram", Measure::G},       {"grams", Measure::G},         {"gr", Measure::G},
    {"kg", Measure::Kg},        {"kilo", Measure::Kg},         {"kilos", Measure::Kg},
    {"mg", Measure::Mg},        {"lb", Measure::Lb},           {"lbs", Measure::Lb},
    {"floz", Measure::FlozUs},  {"fl oz", Measure::FlozUs},    {"piece", Measure::Piece},
    {"pieces", Measure::Piece}, {"pc", Measure::Piece},        {"pcs", Measure::Piece},
    {"each", Measure::Piece},   {"gallon", Measure::GallonUs}, {"quart", Measure::QuartUs},
}};

std::size_t numberEnd(std::string_view text) {
    const auto isPart = [](char c) {
        return (c >= '0' && c <= '9') || c == '.' || c == ',' || c == '/' || c == '-';
    };
    return static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), isPart) - text.begin());
}

} // namespace

tl::expected<PackSize, SizeProblem> readPackSize(std::string_view written) {
    std::string text = base::toLower(base::toNfkc(base::trimmed(written)));
    if (text.empty()) return tl::unexpected(SizeProblem::Empty);
    const std::size_t end = numberEnd(text);
    const auto number = plainRational(text.substr(0, end));
    if (!number) return tl::unexpected(SizeProblem::NotANumber);
    std::string unit(base::trimmed(std::string_view(text).substr(end)));
    if (!unit.empty() && unit.back() == '.') unit.pop_back();
    if (unit.empty()) return tl::unexpected(SizeProblem::NoUnit);
    const auto known =
        std::find_if(kUnits.begin(), kUnits.end(), [&](const UnitName& each) { return each.word == unit; });
    if (known == kUnits.end()) return tl::unexpected(SizeProblem::UnknownUnit);
    const auto& info = quantity::measureInfo(known->measure);
    if (info.dimension == quantity::Dimension::Count) return PackSize{*number, PackUnit::Piece};
    const bool volume = info.dimension == quantity::Dimension::Volume;
    const auto& exact = volume ? info.exactMicrolitres : info.exactMicrograms;
    auto amount = exact ? number->times(*exact) : std::nullopt;
    if (amount) amount = amount->over(volume ? 1000 : 1'000'000);
    if (!amount) return tl::unexpected(SizeProblem::NotANumber);
    return PackSize{*amount, volume ? PackUnit::Ml : PackUnit::Gram};
}

} // namespace stillroom::exchange
