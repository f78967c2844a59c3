#include "ui/panels/tasting/tasting_sheet.h"

#include "core/history/diff.h"
#include "ui/panels/drawing_values.h"
#include "ui/text/border.h"
#include "ui/text/words.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

// The likeliest taster: whoever wrote the newest tasting of this drink.
std::optional<base::PersonId> lastTaster(const store::Workbook& book,
                                         const std::vector<history::Revision>& revisions) {
    std::optional<tasting::Tasting> newest;
    for (const auto& revision : revisions)
        for (const auto& tasting : book.tastings(revision.id))
            if (!newest || tasting.when > newest->when) newest = tasting;
    if (!newest) return std::nullopt;
    return newest->taster;
}

QString initialsOf(const std::vector<tasting::Person>& people, base::PersonId id, QString* name) {
    for (const auto& person : people)
        if (person.id == id) {
            if (name) *name = fromCore(person.name);
            return person.initials.empty() ? u"—"_s : fromCore(person.initials);
        }
    return u"—"_s;
}

} // namespace

QString scaleName(tasting::Scale scale) {
    return fromCore(tasting::scaleId(scale));
}

MeanScores meanScores(const std::vector<Scores>& all) {
    MeanScores means{};
    for (std::size_t scale = 0; scale < tasting::kScaleCount; ++scale) {
        double sum = 0;
        int given = 0;
        for (const auto& scores : all)
            if (scores[scale]) {
                sum += *scores[scale];
                ++given;
            }
        if (given > 0) means[scale] = sum / given;
    }
    return means;
}

bool TastingInput::saysSomething() const {
    return std::any_of(scores.begin(), scores.end(), [](const auto& score) { return score.has_value(); }) ||
           !note.isEmpty() || verdict != tasting::Verdict::None || !tryNext.isEmpty();
}

QString initialsFrom(const QString& typed) {
    const auto words = typed.simplified().split(u' ', Qt::SkipEmptyParts);
    if (words.size() > 1) {
        QString initials;
        for (const auto& word : words)
            initials += word.front().toUpper();
        return initials.left(3);
    }
    if (words.isEmpty()) return {};
    return words.front().size() <= 3 ? words.front().toUpper() : words.front().left(2).toUpper();
}

std::optional<base::PersonId> personFor(const std::vector<tasting::Person>& people, const QString& typed) {
    const auto wanted = typed.simplified();
    if (wanted.isEmpty()) return std::nullopt;
    for (const auto& person : people)
        if (fromCore(person.initials).compare(wanted, Qt::CaseInsensitive) == 0 ||
            fromCore(person.name).compare(wanted, Qt::CaseInsensitive) == 0)
            return person.id;
    return std::nullopt;
}

std::vector<TastingEntry> tastingEntries(const store::Workbook& book, base::RevisionId revision,
                                         const std::vector<tasting::Person>& people, base::Instant now) {
    std::vector<TastingEntry> entries;
    for (const auto& tasting : book.tastings(revision)) {
        TastingEntry entry;
        entry.initials = initialsOf(people, tasting.taster, &entry.name);
        entry.when = dayText(tasting.when, now) + u", "_s + timeText(tasting.when).left(5);
        entry.scores = tasting.scores.first();
        entry.note = fromCore(tasting.note);
        entry.verdict = tasting.verdict;
        entry.tryNext = fromCore(tasting.tryNext);
        entries.push_back(std::move(entry));
    }
    return entries;
}

std::optional<TastingSheet> loadTastingSheet(const store::Workbook& book, base::RevisionId id,
                                             base::Instant now) {
    const auto revision = book.revision(id);
    if (!revision) return std::nullopt;
    TastingSheet sheet;
    if (const auto drink = book.drink(revision->drink)) sheet.drink = fromCore(drink->name);
    sheet.revision = u"r%1"_s.arg(revision->number);
    sheet.when = dayText(now, now) + u", "_s + timeText(now).left(5);
    sheet.people = book.people();
    sheet.taster = lastTaster(book, book.revisions(revision->drink));
    sheet.about = u"kept "_s + dayText(revision->kept, now);
    if (revision->parent)
        if (const auto parent = book.revision(*revision->parent)) {
            const auto changed =
                history::inWords(history::difference(parent->spec, revision->spec, revision->measures),
                                 parent->spec, revision->spec);
            if (!changed.empty()) sheet.about += u": "_s + fromCore(changed);
            std::vector<Scores> before;
            for (const auto& tasting : book.tastings(parent->id))
                before.push_back(tasting.scores.first());
            sheet.rings = meanScores(before);
            if (!before.empty()) sheet.ringsOf = u"r%1"_s.arg(parent->number);
        }
    sheet.tastings = tastingEntries(book, id, sheet.people, now);
    return sheet;
}

tasting::Tasting saveTasting(store::Workbook& book, base::RevisionId revision, const TastingInput& input,
                             base::Instant now) {
    tasting::Tasting tasting;
    tasting.revision = revision;
    tasting.taster =
        input.person ? *input.person : book.addPerson(toCore(input.name), toCore(input.initials));
    tasting.when = now;
    tasting.scores = tasting::Scores::ofFirst(input.scores);
    tasting.note = toCore(input.note);
    tasting.verdict = input.verdict;
    tasting.tryNext = toCore(input.tryNext);
    return book.addTasting(tasting);
}

} // namespace stillroom::ui
