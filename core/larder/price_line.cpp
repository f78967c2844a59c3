#include "core/larder/price_line.h"

#include <algorithm>
#include <charconv>
#include <chrono>

namespace stillroom::larder {

namespace {

int digits(std::string_view text) {
    int value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

tl::expected<UnitPrice, CostFault> ofPack(const Larder& larder, const Ingredient& ingredient,
                                          const Pack& pack, const PriceQuestion& question) {
    Ingredient then = ingredient;
    then.packs = {pack};
    return unitPrice(larder, then, {question.currency, pack.pricedOn, question.rates});
}

} // namespace

int dayNumber(std::string_view civilDate) {
    if (!isCivilDate(civilDate)) return 0;
    const std::chrono::year_month_day date{
        std::chrono::year(digits(civilDate.substr(0, 4))),
        std::chrono::month(static_cast<unsigned>(digits(civilDate.substr(5, 2)))),
        std::chrono::day(static_cast<unsigned>(digits(civilDate.substr(8, 2))))};
    return static_cast<int>(std::chrono::sys_days(date).time_since_epoch().count());
}

PriceLine priceLine(const Larder& larder, const Ingredient& ingredient, const PriceQuestion& question) {
    PriceLine line;
    std::vector<std::pair<const Pack*, UnitPrice>> dated;
    for (const Pack& pack : ingredient.packs) {
        const auto price = isCivilDate(pack.pricedOn) ? ofPack(larder, ingredient, pack, question)
                                                      : tl::unexpected(CostFault{});
        if (price)
            dated.emplace_back(&pack, *price);
        else
            ++line.leftOut;
    }
    std::stable_sort(dated.begin(), dated.end(),
                     [](const auto& a, const auto& b) { return a.first->pricedOn < b.first->pricedOn; });
    for (const auto& [pack, price] : dated) {
        if (price.unit != dated.back().second.unit) {
            ++line.leftOut;
            continue;
        }
        const PricePoint point{pack->pricedOn, dayNumber(pack->pricedOn), price, 0};
        if (!line.points.empty() && line.points.back().on == point.on)
            line.points.back() = point;
        else
            line.points.push_back(point);
    }
    for (std::size_t i = 1; i < line.points.size(); ++i) {
        const double before = line.points[i - 1].price.major;
        if (before > 0) line.points[i].change = line.points[i].price.major / before - 1;
    }
    return line;
}

} // namespace stillroom::larder
