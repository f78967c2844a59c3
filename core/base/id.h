#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace stillroom::base {

// 128 random bits. Anything that two books could both hold is known by one of these, never by a row
// number, so that books can be merged.
struct Bits128 {
    std::array<std::uint8_t, 16> bytes{};

    static Bits128 random();
    // The first 16 bytes of SHA-256(text): for things every book knows alike, such as handbook kinds.
    static Bits128 derivedFrom(std::string_view text);
    static std::optional<Bits128> fromHex(std::string_view hex);
    std::string hex() const;
    bool isNull() const { return bytes == std::array<std::uint8_t, 16>{}; }
    friend auto operator<=>(const Bits128&, const Bits128&) = default;
};

// One type per kind of thing, so that a drink's id cannot be passed where a revision's is wanted.
template <class Tag>
class Id {
  public:
    Id() = default;
    explicit Id(const Bits128& bits) : m_bits(bits) {}
    static Id random() { return Id(Bits128::random()); }
    static Id derivedFrom(std::string_view text) { return Id(Bits128::derivedFrom(text)); }
    static std::optional<Id> fromText(std::string_view hex) {
        const auto bits = Bits128::fromHex(hex);
        return bits ? std::optional<Id>(Id(*bits)) : std::nullopt;
    }
    std::string text() const { return m_bits.hex(); }
    const Bits128& bits() const { return m_bits; }
    bool isNull() const { return m_bits.isNull(); }
    friend auto operator<=>(const Id&, const Id&) = default;

  private:
    Bits128 m_bits;
};

using BookId = Id<struct BookTag>;
using DrinkId = Id<struct DrinkTag>;
using DraftId = Id<struct DraftTag>;
using RevisionId = Id<struct RevisionTag>;
using IngredientId = Id<struct IngredientTag>; // a kind, a bottle or a preparation
using PackId = Id<struct PackTag>;
using LotId = Id<struct LotTag>; // what was made or bought on a date
using PersonId = Id<struct PersonTag>;
using TastingId = Id<struct TastingTag>;
using PanelId = Id<struct PanelTag>;
using PhotoLinkId = Id<struct PhotoLinkTag>; // a photo itself is known by its content
using SavedSearchId = Id<struct SavedSearchTag>;

} // namespace stillroom::base

template <class Tag>
struct std::hash<stillroom::base::Id<Tag>> {
    std::size_t operator()(const stillroom::base::Id<Tag>& id) const noexcept {
        std::size_t h = 0;
        for (const auto byte : id.bits().bytes)
            h = h * 131 + byte;
        return h;
    }
};
