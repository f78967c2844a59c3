#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <random>
#include <vector>

// Who tastes what in which order, and the codes on the cups.
namespace stillroom::tasting {

using Order = std::vector<std::size_t>; // products, counted from 0, in the order they are tasted

// Williams 1949: each product once in each place and once (two rows for every row of an odd number: twice)
// right after each other product. An even number needs as many orders as products, an odd one twice as many.
// The first half of an odd design, and the second, is a Latin square by itself.
std::vector<Order> williamsDesign(std::size_t products); // 2 or more

// ABB BAB BBA BAA ABA AAB: each product is the odd one as often, in each place as often.
std::vector<Order> triangleOrders();

struct DuoTrioOrder {
    std::size_t reference = 0;
    Order cups;
    friend bool operator==(const DuoTrioOrder&, const DuoTrioOrder&) = default;
};
std::vector<DuoTrioOrder> duoTrioOrders(); // each product is the reference as often, and first as often

// Chance that can be dealt again: the same seed gives the same cups on every machine. (The generator is the
// standard's and exactly specified; its distributions are not, so drawing is done here.)
class Dealer {
  public:
    explicit Dealer(std::uint64_t seed) : m_generator(seed) {}
    std::size_t below(std::size_t count); // 0 … count - 1, each as likely; count > 0

    template <class Item>
    void shuffle(std::vector<Item>& items) {
        for (std::size_t left = items.size(); left > 1; --left)
            std::swap(items[left - 1], items[below(left)]);
    }

    // One row for each taster: whole blocks of the design first, in chance order, and part of one at the end.
    template <class Row>
    std::vector<Row> allot(const std::vector<Row>& design, std::size_t block, std::size_t tasters) {
        std::vector<Row> rows;
        std::vector<std::size_t> blocks;
        while (rows.size() < tasters) {
            if (blocks.empty()) {
                blocks.resize(design.size() / block);
                for (std::size_t i = 0; i < blocks.size(); ++i)
                    blocks[i] = i;
                shuffle(blocks);
            }
            const auto from = design.begin() + static_cast<std::ptrdiff_t>(blocks.back() * block);
            blocks.pop_back();
            std::vector<Row> some(from, from + static_cast<std::ptrdiff_t>(block));
            shuffle(some);
            rows.insert(rows.end(), some.begin(), some.end());
        }
        rows.resize(tasters);
        return rows;
    }

  private:
    std::mt19937_64 m_generator;
};

// Three digits, all different, not a run up or down, not starting with 0: nothing a taster could read a
// meaning or an order into.
bool isPlainCode(int code);
// That many different codes; nullopt where there are not so many (633).
std::optional<std::vector<int>> drawCodes(std::size_t count, Dealer& dealer);

} // namespace stillroom::tasting
