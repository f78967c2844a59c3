#include "core/tasting/panel.h"

#include "core/base/check.h"
#include "core/tasting/serving_order.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <set>

namespace stillroom::tasting {

namespace {

// In the order of the enumerations; these enter files.
constexpr std::array<std::string_view, 8> kKinds{"triangle",          "duo_trio", "paired_difference",
                                                 "paired_preference", "ranking",  "hedonic",
                                                 "just_about_right",  "intensity"};
constexpr std::array<std::string_view, 3> kStates{"designed", "pouring", "closed"};
constexpr std::array<std::string_view, 13> kErrors{
    "product_count", "repeated_product", "no_tasters",  "repeated_taster", "too_many_cups",
    "bad_foretold",  "bad_alpha",        "wrong_state", "unknown_taster",  "unknown_cup",
    "bad_score",     "not_closed",       "malformed"};

template <class Value, std::size_t N>
std::optional<Value> fromIdOf(const std::array<std::string_view, N>& ids, std::string_view id) {
    const auto found = std::find(ids.begin(), ids.end(), id);
    if (found == ids.end()) return std::nullopt;
    return static_cast<Value>(found - ids.begin());
}

bool choosesOne(PanelKind kind) {
    return kind <= PanelKind::PairedPreference;
}

bool hasRepeats(auto items) {
    std::sort(items.begin(), items.end());
    return std::adjacent_find(items.begin(), items.end()) != items.end();
}

bool foretoldFits(const PanelDesign& design) {
    const std::size_t said = design.foretold.size();
    const std::size_t products = design.products.size();
    if (said == 0) return true;
    if (std::any_of(design.foretold.begin(), design.foretold.end(),
                    [&](std::size_t product) { return product >= products; }))
        return false;
    if (design.kind == PanelKind::PairedDifference) return said == 1;
    return design.kind == PanelKind::Ranking && said == products && !hasRepeats(design.foretold);
}

std::optional<PanelError> problemOfDesign(const PanelDesign& design) {
    const std::size_t products = design.products.size();
    if (products < 2 || products > (choosesOne(design.kind) ? 2 : kMostPanelProducts))
        return PanelError::ProductCount;
    if (hasRepeats(design.products)) return PanelError::RepeatedProduct;
    if (design.tasters.empty()) return PanelError::NoTasters;
    if (hasRepeats(design.tasters)) return PanelError::RepeatedTaster;
    if (!foretoldFits(design)) return PanelError::BadForetold;
    if (design.share && !(*design.share > 0 && *design.share <= 1)) return PanelError::BadForetold;
    if (!(design.alpha > 0 && design.alpha <= 0.5)) return PanelError::BadAlpha;
    return std::nullopt;
}

std::vector<DuoTrioOrder> withoutReference(const std::vector<Order>& orders) {
    std::vector<DuoTrioOrder> rows;
    for (const Order& order : orders)
        rows.push_back({0, order});
    return rows;
}

// The products of each taster's cups. Products are relabelled by chance first, so that an unfinished block
// does not always favour the same ones.
std::vector<DuoTrioOrder> ordersFor(const PanelDesign& design, Dealer& dealer) {
    const std::size_t products = design.products.size();
    std::vector<DuoTrioOrder> rows;
    std::size_t block = products;
    if (design.kind == PanelKind::Triangle)
        rows = withoutReference(triangleOrders());
    else if (design.kind == PanelKind::DuoTrio)
        rows = duoTrioOrders();
    else
        rows = withoutReference(williamsDesign(products));
    if (design.kind == PanelKind::Triangle || design.kind == PanelKind::DuoTrio) block = rows.size();

    Order label(products);
    std::iota(label.begin(), label.end(), std::size_t{0});
    dealer.shuffle(label);
    for (DuoTrioOrder& row : rows) {
        row.reference = label[row.reference];
        for (std::size_t& product : row.cups)
            product = label[product];
    }
    return dealer.allot(rows, block, design.tasters.size());
}

bool servingFits(const PanelDesign& design, const Serving& serving) {
    const std::size_t products = design.products.size();
    if (serving.reference.has_value() != (design.kind == PanelKind::DuoTrio)) return false;
    if (serving.reference && *serving.reference >= products) return false;
    std::vector<int> each(products, 0);
    for (const Cup& cup : serving.cups) {
        if (cup.product >= products || !isPlainCode(cup.code)) return false;
        ++each[cup.product];
    }
    std::sort(each.begin(), each.end());
    if (design.kind == PanelKind::Triangle) return each == std::vector<int>{1, 2};
    return each == std::vector<int>(products, 1);
}

bool hasCup(const Serving& serving, int code) {
    return std::any_of(serving.cups.begin(), serving.cups.end(),
                       [code](const Cup& cup) { return cup.code == code; });
}

std::optional<PanelError> problemOfMarks(const Serving& serving, const std::map<int, int>& marks, bool asked,
                                         int low, int high) {
    if (!asked && !marks.empty()) return PanelError::BadScore;
    for (const auto& [code, mark] : marks) {
        if (!hasCup(serving, code)) return PanelError::UnknownCup;
        if (mark < low || mark > high) return PanelError::BadScore;
    }
    return std::nullopt;
}

std::optional<PanelError> problemOfAnswer(PanelKind kind, const Serving& serving, const Answer& answer) {
    if (answer.chosen) {
        if (!choosesOne(kind)) return PanelError::BadScore;
        if (!hasCup(serving, *answer.chosen)) return PanelError::UnknownCup;
    }
    const bool intensity = kind == PanelKind::Intensity;
    const bool liking = kind == PanelKind::Hedonic || kind == PanelKind::JustAboutRight;
    if (const auto bad = problemOfMarks(serving, answer.ranks, kind == PanelKind::Ranking, 1,
                                        static_cast<int>(serving.cups.size())))
        return bad;
    if (const auto bad = problemOfMarks(serving, answer.scores, intensity || liking, intensity ? 0 : 1,
                                        intensity ? 15 : 9))
        return bad;
    return problemOfMarks(serving, answer.justRight, kind == PanelKind::JustAboutRight, 1, 5);
}

} // namespace

std::string_view panelKindId(PanelKind kind) {
    return kKinds[static_cast<std::size_t>(kind)];
}
std::optional<PanelKind> panelKindFromId(std::string_view id) {
    return fromIdOf<PanelKind>(kKinds, id);
}
std::string_view panelStateId(PanelState state) {
    return kStates[static_cast<std::size_t>(state)];
}
std::optional<PanelState> panelStateFromId(std::string_view id) {
    return fromIdOf<PanelState>(kStates, id);
}
std::string_view panelErrorId(PanelError error) {
    return kErrors[static_cast<std::size_t>(error)];
}

std::uint64_t newSeed() {
    std::uint64_t seed = 0;
    const auto bits = base::Bits128::random();
    for (std::size_t i = 0; i < sizeof seed; ++i)
        seed = seed << 8 | bits.bytes[i];
    return seed;
}

tl::expected<Panel, PanelError> designPanel(const PanelDesign& design) {
    if (const auto problem = problemOfDesign(design)) return tl::unexpected(*problem);
    Dealer dealer(design.seed);
    const auto orders = ordersFor(design, dealer);
    std::size_t cups = 0;
    for (const DuoTrioOrder& order : orders)
        cups += order.cups.size();
    const auto codes = drawCodes(cups, dealer);
    if (!codes) return tl::unexpected(PanelError::TooManyCups);

    Panel panel;
    panel.design = design;
    panel.answers.resize(design.tasters.size());
    auto next = codes->begin();
    for (const DuoTrioOrder& order : orders) {
        Serving serving;
        if (design.kind == PanelKind::DuoTrio) serving.reference = order.reference;
        for (const std::size_t product : order.cups)
            serving.cups.push_back({*next++, product});
        panel.servings.push_back(std::move(serving));
    }
    return panel;
}

std::optional<PanelError> problemOf(const Panel& panel) {
    if (const auto problem = problemOfDesign(panel.design)) return problem;
    const std::size_t tasters = panel.design.tasters.size();
    if (panel.servings.size() != tasters || panel.answers.size() != tasters) return PanelError::Malformed;
    std::set<int> codes;
    for (std::size_t i = 0; i < tasters; ++i) {
        if (!servingFits(panel.design, panel.servings[i])) return PanelError::Malformed;
        for (const Cup& cup : panel.servings[i].cups)
            if (!codes.insert(cup.code).second) return PanelError::Malformed;
        if (const auto bad = problemOfAnswer(panel.design.kind, panel.servings[i], panel.answers[i]))
            return bad;
        if (panel.state == PanelState::Designed && !panel.answers[i].isEmpty()) return PanelError::Malformed;
    }
    return std::nullopt;
}

tl::expected<Panel, PanelError> startPouring(const Panel& panel) {
    if (panel.state != PanelState::Designed) return tl::unexpected(PanelError::WrongState);
    Panel next = panel;
    next.state = PanelState::Pouring;
    return next;
}

tl::expected<Panel, PanelError> withAnswer(const Panel& panel, const base::PersonId& taster,
                                           const Answer& answer) {
    if (panel.state != PanelState::Pouring) return tl::unexpected(PanelError::WrongState);
    const auto& tasters = panel.design.tasters;
    const auto found = std::find(tasters.begin(), tasters.end(), taster);
    if (found == tasters.end()) return tl::unexpected(PanelError::UnknownTaster);
    const auto index = static_cast<std::size_t>(found - tasters.begin());
    STILLROOM_CHECK(index < panel.servings.size() && index < panel.answers.size(),
                    return tl::unexpected(PanelError::Malformed));
    if (const auto problem = problemOfAnswer(panel.design.kind, panel.servings[index], answer))
        return tl::unexpected(*problem);
    Panel next = panel;
    next.answers[index] = answer;
    return next;
}

tl::expected<Panel, PanelError> closePanel(const Panel& panel) {
    if (panel.state != PanelState::Pouring) return tl::unexpected(PanelError::WrongState);
    Panel next = panel;
    next.state = PanelState::Closed;
    return next;
}

} // namespace stillroom::tasting
