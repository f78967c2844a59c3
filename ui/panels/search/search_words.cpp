#include "ui/panels/search/search_words.h"

#include "core/balance/style_region.h"
#include "core/larder/allergens.h"
#include "ui/text/border.h"
#include "ui/text/words.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using store::SearchField;
using store::SearchState;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Search", text);
}

} // namespace

QString searchFieldWord(SearchField field, const QString& revision) {
    const auto of = [&](const char* alone, const char* with) {
        return !revision.isEmpty() ? say(with).arg(revision) : say(alone);
    };
    switch (field) {
    case SearchField::Name:
        return say("name");
    case SearchField::Tags:
        return say("tag, menu or draft");
    case SearchField::Lines:
        return say("line");
    case SearchField::Brief:
        return say("brief");
    case SearchField::Notes:
        return say("note");
    case SearchField::Reason:
        return of("reason", "reason of %1");
    case SearchField::Tasting:
        return of("tasting", "tasting of %1");
    case SearchField::None:
        break;
    }
    return {};
}

QString searchStateWord(SearchState state) {
    switch (state) {
    case SearchState::Draft:
        return say("draft not kept");
    case SearchState::Kept:
        return say("kept");
    case SearchState::House:
        return say("house");
    case SearchState::Published:
        return say("published");
    case SearchState::Stale:
        return say("published is behind the bar");
    case SearchState::SetAside:
        return say("something set aside");
    case SearchState::Binned:
        return say("in the bin");
    }
    return {};
}

std::vector<PickMany::Choice> searchStateChoices() {
    std::vector<PickMany::Choice> choices;
    for (const auto state :
         {SearchState::Draft, SearchState::Kept, SearchState::House, SearchState::Published,
          SearchState::Stale, SearchState::SetAside, SearchState::Binned})
        choices.push_back({fromCore(store::searchStateId(state)), searchStateWord(state)});
    return choices;
}

std::vector<PickMany::Choice> styleChoices() {
    std::vector<PickMany::Choice> choices;
    for (const auto& style : balance::styleRegions())
        choices.push_back({fromCore(style.id), fromCore(style.name)});
    return choices;
}

std::vector<PickMany::Choice> allergenChoices() {
    std::vector<PickMany::Choice> choices;
    for (const auto& each : larder::euAllergenClasses())
        choices.push_back({fromCore(each.id), allergenName(fromCore(each.id))});
    return choices;
}

QString foundWords(const store::SearchAnswer& answer, std::size_t shown) {
    const auto drinks = counted(answer.total, say("drink"), say("drinks"));
    if (answer.total == 0) return say("nothing found");
    if (static_cast<std::size_t>(answer.total) == shown) return drinks;
    return say("%1, the first %2 listed").arg(drinks).arg(shown);
}

QString readAsWords(const store::SearchAnswer& answer) {
    QStringList parts;
    for (const auto& word : answer.words) {
        if (word.read.empty()) continue;
        QStringList read;
        for (const auto& each : word.read)
            read << fromCore(each);
        parts << say("“%1” is not in the book; looked for %2.")
                     .arg(fromCore(word.typed), read.join(say(" or ")));
    }
    return parts.join(u' ');
}

QString nothingFoundWords(const store::SearchRequest& request) {
    const QString words = fromCore(request.words).trimmed();
    const bool binned = std::find(request.filters.states.begin(), request.filters.states.end(),
                                  SearchState::Binned) != request.filters.states.end();
    QString said = words.isEmpty() ? say("No drink is as asked for on the left.")
                                   : say("No drink has all of “%1”.").arg(words);
    if (!words.isEmpty() && !request.filters.isEmpty())
        said += u' ' + say("The filters on the left hold too; “Clear the filters” takes them off.");
    if (!request.filters.isEmpty())
        said += u' ' + say("A figure or an allergen that nobody has stated does not count as found.");
    if (!binned) said += u' ' + say("What is in the bin is looked through when State says so.");
    return said;
}

QString stillReadingWords(int unread, int drinks, bool readOnly) {
    if (unread <= 0) return {};
    if (readOnly)
        return say("%1 of %2 changed after the book was last searched, and it is open to read only: they are "
                   "found "
                   "by what they said before.")
            .arg(std::min(unread, drinks))
            .arg(counted(drinks, say("drink"), say("drinks")));
    return say("Still reading: %1 of %2. What is found so far may not be all.")
        .arg(std::min(unread, drinks))
        .arg(counted(drinks, say("drink"), say("drinks")));
}

} // namespace stillroom::ui
