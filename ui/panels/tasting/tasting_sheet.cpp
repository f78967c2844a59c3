#include "ui/panels/tasting/tasting_sheet.h"

#include "core/history/diff.h"
#include "ui/panels/drawing_values.h"
#include "ui/panels/photos/photo_reading.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/revision_label.h"
#include "ui/text/scale_words.h"
#include "ui/text/words.h"

#include <QTextBoundaryFinder>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr int kThumbnail = 300; // pixels: sharp at twice the size it is drawn

// The likeliest taster: whoever wrote the newest tasting of this drink.
std::optional<base::PersonId> lastTaster(const std::vector<tasting::Tasting>& earlier) {
    const auto newest = std::max_element(earlier.begin(), earlier.end(),
                                         [](const auto& a, const auto& b) { return a.when < b.when; });
    if (newest == earlier.end()) return std::nullopt;
    return newest->taster;
}

QStringList placesOf(const std::vector<tasting::Tasting>& earlier) {
    QStringList places;
    for (auto at = earlier.rbegin(); at != earlier.rend(); ++at)
        if (const auto place = fromCore(at->circumstances.place); !place.isEmpty() && !places.contains(place))
            places << place;
    return places;
}

// What a reader takes for one sign may be several characters: an emoji, a letter with its marks.
QString firstSigns(const QString& text, int count) {
    QTextBoundaryFinder finder(QTextBoundaryFinder::Grapheme, text);
    while (count-- > 0 && finder.toNextBoundary() >= 0) {
    }
    return finder.position() < 0 ? text : text.left(finder.position());
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

tl::expected<tasting::Circumstances, tasting::CircumstanceError>
circumstancesFrom(const CircumstanceTexts& texts) {
    using Error = tasting::CircumstanceError;
    tasting::Circumstances read;
    std::optional<Error> unread;
    const auto figure = [&unread](const QString& text, Error error) -> std::optional<double> {
        if (text.trimmed().isEmpty()) return std::nullopt;
        const auto value = typedNumber(text);
        if (!value && !unread) unread = error;
        return value;
    };
    if (const auto minutes = figure(texts.glassAge, Error::GlassAge)) {
        if (*minutes != std::floor(*minutes) || std::abs(*minutes) > tasting::kOldestGlassMinutes)
            return tl::unexpected(Error::GlassAge);
        read.glassAgeMinutes = static_cast<int>(*minutes);
    }
    read.place = toCore(texts.place.simplified());
    if (const auto ml = figure(texts.volume, Error::Volume))
        read.measured.volume = quantity::Volume::fromMl(*ml);
    if (const auto g = figure(texts.weight, Error::Weight))
        read.measured.weight = quantity::Mass::fromGrams(*g);
    if (const auto c = figure(texts.temperature, Error::Temperature))
        read.measured.temperature = quantity::Temperature::fromCelsius(*c);
    if (const auto brix = figure(texts.brix, Error::Brix))
        read.measured.brixRead = quantity::MassFraction::fromPercent(*brix);
    if (unread) return tl::unexpected(*unread);
    if (const auto problem = read.problem()) return tl::unexpected(*problem);
    return read;
}

CircumstanceTexts textsOf(const tasting::Circumstances& said) {
    constexpr int kDecimals = 4;
    CircumstanceTexts texts;
    if (said.glassAgeMinutes) texts.glassAge = QString::number(*said.glassAgeMinutes);
    texts.place = fromCore(said.place);
    const auto& measured = said.measured;
    if (measured.volume) texts.volume = trimmedNumber(measured.volume->ml(), kDecimals);
    if (measured.weight) texts.weight = trimmedNumber(measured.weight->grams(), kDecimals);
    if (measured.temperature) texts.temperature = trimmedNumber(measured.temperature->celsius(), kDecimals);
    if (measured.brixRead) texts.brix = trimmedNumber(measured.brixRead->percent(), kDecimals);
    return texts;
}

bool TastingInput::saysSomething() const {
    return !scores.byScale.empty() || !note.isEmpty() || verdict != tasting::Verdict::None ||
           !tryNext.isEmpty() || !photos.empty() || circumstances != CircumstanceTexts{};
}

TastingInput inputFrom(const TastingEntry& entry) {
    TastingInput input;
    input.person = entry.said.taster;
    input.name = input.initials = entry.initials;
    input.when = entry.said.when;
    input.circumstances = textsOf(entry.said.circumstances);
    input.scores = entry.scores;
    input.note = entry.note;
    input.verdict = entry.verdict;
    input.tryNext = entry.tryNext;
    input.amends = entry.said.id;
    return input;
}

QString initialsFrom(const QString& typed) {
    const auto words = typed.simplified().split(u' ', Qt::SkipEmptyParts);
    if (words.size() > 1) {
        QString initials;
        for (qsizetype i = 0; i < std::min<qsizetype>(3, words.size()); ++i)
            initials += firstSigns(words[i], 1).toUpper();
        return initials;
    }
    if (words.isEmpty()) return {};
    const auto& word = words.front();
    return firstSigns(word, firstSigns(word, 3) == word ? 3 : 2).toUpper();
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
    const bool anyPhotos = book.photoTally().photos > 0;
    for (const auto& tasting : book.tastings(revision)) {
        TastingEntry entry;
        entry.said = tasting;
        entry.initials = initialsOf(people, tasting.taster, &entry.name);
        entry.when = dayText(tasting.when, now) + u", "_s + timeText(tasting.when).left(5);
        entry.circumstances = circumstancesInWords(tasting.circumstances);
        entry.scores = tasting.scores;
        entry.note = fromCore(tasting.note);
        entry.verdict = tasting.verdict;
        entry.tryNext = fromCore(tasting.tryNext);
        if (anyPhotos)
            for (const auto& photo : book.photosOf(tasting.id))
                if (const auto bytes = book.photoBytes(photo.info.hash))
                    entry.photos.push_back(thumbnail(photo.info.hash, *bytes, kThumbnail));
        entries.push_back(std::move(entry));
    }
    return entries;
}

std::vector<tasting::Scores> scoresOf(const std::vector<TastingEntry>& tastings) {
    std::vector<tasting::Scores> scores;
    for (const auto& tasting : tastings)
        scores.push_back(tasting.scores);
    return scores;
}

std::optional<TastingSheet> loadTastingSheet(const store::Workbook& book, base::RevisionId id,
                                             base::Instant now) {
    const auto revision = book.revision(id);
    if (!revision) return std::nullopt;
    TastingSheet sheet;
    const auto drink = book.drink(revision->drink);
    const auto form = drink ? drink->form : history::DrinkForm::Drink;
    if (drink) sheet.drink = fromCore(drink->name);
    sheet.revision = revisionLabel(form, revision->number);
    sheet.measuring = measuredContext(book, *revision);
    sheet.now = now;
    sheet.scales = book.settings().scales.scales;
    sheet.people = book.people();
    const auto earlier = book.tastingsOf(revision->drink);
    sheet.taster = lastTaster(earlier);
    sheet.places = placesOf(earlier);
    sheet.about = u"kept "_s + dayText(revision->kept, now);
    sheet.tastings = tastingEntries(book, id, sheet.people, now);
    std::vector<tasting::Scores> before;
    if (revision->parent)
        if (const auto parent = book.revision(*revision->parent)) {
            const auto changed =
                history::inWords(history::difference(parent->spec, revision->spec, revision->measures),
                                 parent->spec, revision->spec);
            if (!changed.empty()) sheet.about += u": "_s + fromCore(changed);
            for (const auto& tasting : earlier)
                if (tasting.revision == parent->id) before.push_back(tasting.scores);
            if (!before.empty()) sheet.ringsOf = revisionLabel(form, parent->number);
        }
    sheet.shownScales = tasting::scalesShown(book.settings().scales, scoresOf(sheet.tastings));
    sheet.rings = tasting::meansOf(sheet.shownScales, before);
    return sheet;
}

tasting::Tasting saveTasting(store::Workbook& book, base::RevisionId revision, const TastingInput& input,
                             base::Instant now) {
    const auto said = circumstancesFrom(input.circumstances);
    if (!said)
        throw store::StoreError(store::StoreErrorKind::Refused, 0, book.path(),
                                "the circumstances of the tasting cannot be read");
    tasting::Tasting tasting;
    tasting.revision = revision;
    tasting.circumstances = *said;
    tasting.taster =
        input.person ? *input.person : book.addPerson(toCore(input.name), toCore(input.initials));
    tasting.when = input.when.value_or(now);
    tasting.scores = input.scores;
    tasting.note = toCore(input.note);
    tasting.verdict = input.verdict;
    tasting.tryNext = toCore(input.tryNext);
    tasting.amends = input.amends;
    const auto added = book.addTasting(tasting);
    for (const auto& photo : input.photos)
        book.attachPhoto(added.id, photo);
    return added;
}

} // namespace stillroom::ui
