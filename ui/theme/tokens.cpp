#include "ui/theme/tokens.h"

namespace stillroom::ui {

QStringView tokenId(Token token) {
    static constexpr std::array<QStringView, kTokenCount> ids = {
        u"surface",     u"page",         u"well",           u"rule",         u"rule-strong",
        u"ink",         u"ink-2",        u"ink-3",          u"intent",       u"intent-soft",
        u"on-intent",   u"change-up",    u"change-up-soft", u"change-down",  u"change-down-soft",
        u"gap",         u"gap-soft",     u"caution",        u"caution-soft", u"on-caution",
        u"error",       u"error-soft",   u"on-error",       u"focus",        u"stage-measured",
        u"stage-mixed", u"stage-served", u"stage-held",     u"liquid-body",  u"liquid-float",
        u"ice",         u"glass-line",   u"style-region",   u"cloud",        u"aim",
        u"selection"};
    return ids[static_cast<std::size_t>(token)];
}

QStringView typeId(Type type) {
    static constexpr std::array<QStringView, kTypeCount> ids = {
        u"title",          u"line",     u"amount",     u"body",     u"reason", u"reading",
        u"reading-served", u"delta",    u"control",    u"heading",  u"unit",   u"caption",
        u"axis",           u"bar-line", u"bar-amount", u"bar-timer"};
    return ids[static_cast<std::size_t>(type)];
}

} // namespace stillroom::ui
