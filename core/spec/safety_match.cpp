#include "core/spec/safety_match.h"

#include <algorithm>
#include <array>
#include <set>

namespace stillroom::spec {

namespace {

using Kind = SafetyTrigger::Kind;
using Compare = SafetyTrigger::Compare;
using Words = std::vector<std::string>;
// nullopt: not fired; else the lines that fired it, none when it is the drink as a whole.
using Fired = std::optional<std::set<int>>;

bool isDenial(std::string_view word) {
    constexpr std::array<std::string_view, 7> denials{"no",   "not",   "never", "without",
                                                      "away", "avoid", "don"};
    return std::find(denials.begin(), denials.end(), word) != denials.end();
}

// "away from any open flame": a denial within the five words before takes the phrase back.
bool isDenied(const Words& words, std::size_t at) {
    for (std::size_t back = 1; back <= 5 && back <= at; ++back)
        if (isDenial(words[at - back])) return true;
    return false;
}

bool holds(const Words& words, const Phrase& phrase) {
    if (phrase.size() > words.size()) return false;
    for (std::size_t i = 0; i + phrase.size() <= words.size(); ++i) {
        const auto here = words.begin() + static_cast<std::ptrdiff_t>(i);
        if (std::equal(phrase.begin(), phrase.end(), here) && !isDenied(words, i)) return true;
    }
    return false;
}

bool holdsAny(const Words& words, const std::vector<Phrase>& phrases) {
    return std::any_of(phrases.begin(), phrases.end(),
                       [&](const Phrase& phrase) { return holds(words, phrase); });
}

std::vector<Words> sentences(std::string_view text) {
    std::vector<Words> parts;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find_first_of(".;!?\n", begin), text.size());
        Words words = safetyWords(text.substr(begin, end - begin));
        if (!words.empty()) parts.push_back(std::move(words));
        begin = end + 1;
    }
    return parts;
}

bool says(const std::vector<Words>& text, const TechniqueWords& technique) {
    for (const Words& sentence : text) {
        if (holdsAny(sentence, technique.any)) return true;
        const bool together = !technique.together.empty() &&
                              std::all_of(technique.together.begin(), technique.together.end(),
                                          [&](const auto& list) { return holdsAny(sentence, list); });
        if (together) return true;
    }
    return false;
}

struct Prepared {
    const SafetyView& view;
    std::vector<std::set<std::string>> tags;         // by line
    std::set<std::string> looseTags;                 // of the garnish, and the allergens of the method
    std::vector<std::set<std::string>> techniquesOf; // by line: "flamed orange peel"
    std::set<std::string> techniques;                // of the drink as a whole
};

// The words with those of the exceptions taken out, so that no phrase is found in or across one.
Words withoutExceptions(Words words, const std::vector<Phrase>& except) {
    for (const Phrase& phrase : except)
        for (std::size_t i = 0; i + phrase.size() <= words.size(); ++i) {
            const auto here = words.begin() + static_cast<std::ptrdiff_t>(i);
            if (std::equal(phrase.begin(), phrase.end(), here))
                std::fill_n(here, phrase.size(), std::string());
        }
    return words;
}

bool speaksOf(const TagWords& tag, const Words& words) {
    return holdsAny(tag.except.empty() ? words : withoutExceptions(words, tag.except), tag.phrases);
}

std::set<std::string> tagsOf(const SafetyLine& line, const SafetyRules& rules) {
    std::set<std::string> tags;
    if (line.facts) tags.insert(line.facts->tags.begin(), line.facts->tags.end());
    const Words words = safetyWords(line.words);
    for (const TagWords& tag : rules.tagWords) {
        if (tag.carried && line.fromHandbook) continue;
        if (speaksOf(tag, words)) tags.insert(tag.tag);
    }
    return tags;
}

// What a method puts in that no line names: "fat-wash with peanut butter". Allergens alone, for other words
// stand in methods without meaning a thing that is poured.
std::set<std::string> allergenTagsOf(const std::vector<Words>& method, const SafetyRules& rules) {
    std::set<std::string> tags;
    for (const TagWords& tag : rules.tagWords)
        if (!tag.allergen.empty() &&
            std::any_of(method.begin(), method.end(), [&](const Words& s) { return speaksOf(tag, s); }))
            tags.insert(tag.tag);
    return tags;
}

void addTagsOf(const SafetyTrigger& trigger, std::set<std::string>& tags) {
    if (trigger.kind == Kind::Tags) tags.insert(trigger.words.begin(), trigger.words.end());
    for (const SafetyTrigger& part : trigger.parts)
        addTagsOf(part, tags);
}

std::set<std::string> dangerTags(const SafetyRules& rules) {
    std::set<std::string> tags;
    for (const SafetyRule& rule : rules.rules)
        if (rule.caution.severity == Severity::Danger) addTagsOf(rule.trigger, tags);
    return tags;
}

// True of one serving only: its heat, and what is taken out of the glass or strained off before.
bool isOfTheGlass(std::string_view tag) {
    constexpr std::array<std::string_view, 5> kOfTheGlass{"poured_hot", "skewer", "cinnamon_stick_large",
                                                          "star_anise", "whole_spice"};
    return std::find(kOfTheGlass.begin(), kOfTheGlass.end(), tag) != kOfTheGlass.end();
}

Prepared prepare(const SafetyView& view, const SafetyRules& rules) {
    Prepared prepared{view, {}, {}, {}, {}};
    prepared.looseTags = tagsOf({view.garnish, nullptr, false}, rules);
    for (const SafetyLine& line : view.lines) {
        prepared.tags.push_back(tagsOf(line, rules));
        std::set<std::string> techniques;
        const std::vector<Words> text = sentences(line.words);
        for (const TechniqueWords& technique : rules.techniqueWords)
            if (says(text, technique)) techniques.insert(technique.technique);
        prepared.techniquesOf.push_back(std::move(techniques));
    }
    const std::vector<Words> method = sentences(view.methodText);
    prepared.looseTags.merge(allergenTagsOf(method, rules));
    for (const TechniqueWords& technique : rules.techniqueWords)
        if (says(method, technique)) prepared.techniques.insert(technique.technique);
    prepared.techniques.insert(view.techniques.begin(), view.techniques.end());
    return prepared;
}

bool isOneOf(const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

bool passes(const KnownRange& range, Compare compare, double value) {
    switch (compare) {
    case Compare::Above:
        return range.low > value;
    case Compare::AtLeast:
        return range.low >= value;
    case Compare::Below:
        return range.high < value;
    case Compare::AtMost:
        return range.high <= value;
    }
    return false;
}

Fired whole(bool fired) {
    return fired ? Fired(std::set<int>()) : std::nullopt;
}

template <class Predicate>
Fired byLine(const Prepared& prepared, Predicate&& fires) {
    std::set<int> lines;
    for (std::size_t i = 0; i < prepared.view.lines.size(); ++i)
        if (fires(i)) lines.insert(static_cast<int>(i));
    return lines.empty() ? std::nullopt : Fired(std::move(lines));
}

Fired byQuantity(const SafetyTrigger& trigger, const Prepared& prepared) {
    if (trigger.quantity == "ingredient_abv_percent")
        return byLine(prepared, [&](std::size_t i) {
            const larder::FactState* facts = prepared.view.lines[i].facts;
            if (facts == nullptr || !facts->abvPercent) return false;
            const double abv = facts->abvPercent->typical;
            return passes({abv, abv}, trigger.compare, trigger.value);
        });
    const auto range = prepared.view.quantity ? prepared.view.quantity(trigger.quantity) : std::nullopt;
    // What is kept is taken for weak, and for wet, unless it is known to be otherwise: the danger of the two.
    const bool weak = trigger.quantity == "abv_percent" && trigger.compare == Compare::Below;
    const bool wet = trigger.quantity == "water_activity" && trigger.compare == Compare::Above;
    if (prepared.view.context.stored && weak) return whole(!range || range->low < trigger.value);
    if (prepared.view.context.stored && wet && !range) return whole(true);
    return whole(range && passes(*range, trigger.compare, trigger.value));
}

Fired byTechnique(const SafetyTrigger& trigger, const Prepared& prepared) {
    const auto anyOf = [&](const std::set<std::string>& said) {
        return std::any_of(trigger.words.begin(), trigger.words.end(),
                           [&](const std::string& technique) { return said.contains(technique); });
    };
    if (auto lines = byLine(prepared, [&](std::size_t i) { return anyOf(prepared.techniquesOf[i]); }))
        return lines;
    return whole(anyOf(prepared.techniques));
}

Fired byTags(const SafetyTrigger& trigger, const Prepared& prepared) {
    const auto anyOf = [&](const std::set<std::string>& tags) {
        return std::any_of(trigger.words.begin(), trigger.words.end(),
                           [&](const std::string& tag) { return tags.contains(tag); });
    };
    if (auto lines = byLine(prepared, [&](std::size_t i) { return anyOf(prepared.tags[i]); })) return lines;
    return whole(anyOf(prepared.looseTags));
}

Fired fired(const SafetyTrigger& trigger, const Prepared& prepared);

Fired allOf(const std::vector<SafetyTrigger>& parts, const Prepared& prepared) {
    std::set<int> lines;
    for (const SafetyTrigger& part : parts) {
        const Fired one = fired(part, prepared);
        if (!one) return std::nullopt;
        lines.insert(one->begin(), one->end());
    }
    return lines;
}

Fired anyOf(const std::vector<SafetyTrigger>& parts, const Prepared& prepared) {
    Fired lines;
    for (const SafetyTrigger& part : parts)
        if (const Fired one = fired(part, prepared)) {
            if (!lines) lines.emplace();
            lines->insert(one->begin(), one->end());
        }
    return lines;
}

Fired fired(const SafetyTrigger& trigger, const Prepared& prepared) {
    const CautionContext& context = prepared.view.context;
    switch (trigger.kind) {
    case Kind::All:
        return allOf(trigger.parts, prepared);
    case Kind::Any:
        return anyOf(trigger.parts, prepared);
    case Kind::Tags:
        return byTags(trigger, prepared);
    case Kind::Groups:
        return byLine(prepared, [&](std::size_t i) {
            const larder::FactState* facts = prepared.view.lines[i].facts;
            return facts != nullptr && isOneOf(trigger.words, facts->group);
        });
    case Kind::Techniques:
        return byTechnique(trigger, prepared);
    case Kind::Quantity:
        return byQuantity(trigger, prepared);
    case Kind::Stored:
        return whole(context.stored);
    case Kind::PreparationKinds:
        return whole(isOneOf(trigger.words, context.preparationKind));
    case Kind::Flag:
        return whole(std::any_of(trigger.words.begin(), trigger.words.end(),
                                 [&](const std::string& flag) { return isOneOf(context.flags, flag); }));
    case Kind::Vessel:
        return whole(isOneOf(trigger.words, context.vessel));
    case Kind::Event:
        return whole(context.event);
    case Kind::Always:
        return whole(true);
    }
    return std::nullopt;
}

bool comesBefore(const Caution& a, const Caution& b) {
    if (a.standing != b.standing) return b.standing;
    if (a.severity != b.severity) return a.severity < b.severity;
    return !a.lines.empty() && b.lines.empty();
}

} // namespace

std::vector<std::string> allergensSaid(const SafetyView& view, const std::vector<int>& unstated,
                                       const SafetyRules& rules) {
    const Prepared prepared = prepare(view, rules);
    std::set<std::string> tags = prepared.looseTags;
    for (const int line : unstated)
        tags.insert(prepared.tags[static_cast<std::size_t>(line)].begin(),
                    prepared.tags[static_cast<std::size_t>(line)].end());
    std::set<std::string> classes;
    for (const TagWords& tag : rules.tagWords)
        if (!tag.allergen.empty() && tags.contains(tag.tag)) classes.insert(tag.allergen);
    return {classes.begin(), classes.end()};
}

std::vector<std::string> tagsPassedOn(const SafetyView& view, const SafetyRules& rules) {
    const std::set<std::string> dangers = dangerTags(rules);
    std::set<std::string> tags = tagsOf({view.garnish, nullptr, false}, rules);
    for (const SafetyLine& line : view.lines) {
        tags.merge(tagsOf({line.words, nullptr, line.fromHandbook}, rules));
        if (line.facts == nullptr) continue;
        if (line.facts->group == "dairy") tags.insert("dairy_within");
        if (line.facts->group == "egg") tags.insert("egg_within");
    }
    const std::vector<Words> method = sentences(view.methodText);
    for (const TagWords& tag : rules.tagWords)
        if ((!tag.allergen.empty() || dangers.contains(tag.tag)) &&
            std::any_of(method.begin(), method.end(), [&](const Words& s) { return speaksOf(tag, s); }))
            tags.insert(tag.tag);
    std::erase_if(tags, [](const std::string& tag) { return isOfTheGlass(tag); });
    return {tags.begin(), tags.end()};
}

std::vector<Caution> firedCautions(const SafetyView& view, const SafetyRules& rules) {
    const Prepared prepared = prepare(view, rules);
    std::vector<Caution> cautions;
    for (const SafetyRule& rule : rules.rules)
        if (const Fired lines = fired(rule.trigger, prepared)) {
            Caution caution = rule.caution;
            caution.lines.assign(lines->begin(), lines->end());
            cautions.push_back(std::move(caution));
        }
    std::stable_sort(cautions.begin(), cautions.end(), comesBefore);
    return cautions;
}

} // namespace stillroom::spec
