#include "core/tasting/serving_order.h"

#include "core/base/check.h"

#include <limits>

namespace stillroom::tasting {

namespace {

constexpr int kFirstCode = 100;
constexpr int kLastCode = 999;

// 0 1 n-1 2 n-2 …: the steps between neighbours are all different, which is what balances the pairs.
Order zigzag(std::size_t products) {
    Order order{0};
    for (std::size_t low = 1, high = products - 1; low <= high; ++low, --high) {
        order.push_back(low);
        if (low != high) order.push_back(high);
    }
    return order;
}

} // namespace

std::vector<Order> williamsDesign(std::size_t products) {
    STILLROOM_CHECK(products >= 2, return {});
    std::vector<Order> design;
    Order row = zigzag(products);
    for (std::size_t i = 0; i < products; ++i) {
        design.push_back(row);
        for (std::size_t& product : row)
            product = (product + 1) % products;
    }
    if (products % 2 == 0) return design;
    for (std::size_t i = 0; i < products; ++i)
        design.emplace_back(design[i].rbegin(), design[i].rend());
    return design;
}

std::vector<Order> triangleOrders() {
    return {{0, 1, 1}, {1, 0, 1}, {1, 1, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
}

std::vector<DuoTrioOrder> duoTrioOrders() {
    return {{0, {0, 1}}, {0, {1, 0}}, {1, {0, 1}}, {1, {1, 0}}};
}

std::size_t Dealer::below(std::size_t count) {
    STILLROOM_CHECK(count > 0, return 0);
    const auto range = static_cast<std::uint64_t>(count);
    // Draws from the uneven end of the generator's range are thrown away.
    const std::uint64_t uneven = (std::numeric_limits<std::uint64_t>::max() % range + 1) % range;
    std::uint64_t drawn = m_generator();
    while (drawn > std::numeric_limits<std::uint64_t>::max() - uneven)
        drawn = m_generator();
    return static_cast<std::size_t>(drawn % range);
}

bool isPlainCode(int code) {
    if (code < kFirstCode || code > kLastCode) return false;
    const int a = code / 100;
    const int b = code / 10 % 10;
    const int c = code % 10;
    const bool repeats = a == b || b == c || a == c;
    const bool runs = b - a == c - b && (b - a == 1 || b - a == -1);
    return !repeats && !runs;
}

std::optional<std::vector<int>> drawCodes(std::size_t count, Dealer& dealer) {
    std::vector<int> codes;
    for (int code = kFirstCode; code <= kLastCode; ++code)
        if (isPlainCode(code)) codes.push_back(code);
    if (count > codes.size()) return std::nullopt;
    dealer.shuffle(codes);
    codes.resize(count);
    return codes;
}

} // namespace stillroom::tasting
