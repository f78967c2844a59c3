#include "tests/faults/scenario.h"

#include <algorithm>

namespace stillroom::test {

template <class Step>
bool Sitting::step(Step&& step) {
    if (m_stopped) return false;
    try {
        step();
        ++m_acknowledged;
        return true;
    } catch (const store::StoreError&) {
        ++m_failed;
        m_stopped = m_stopAtFailure;
        return false;
    }
}

void Sitting::saveDraft(store::Workbook& book, int ml) {
    const std::size_t tried = m_specs.size();
    const bool done = step([&] {
        m_specs.push_back(sour(ml));
        book.saveDraft(m_draft, m_specs.back());
    });
    if (done) m_acknowledgedSpec = tried;
    mustStayInSight(book);
}

// A failed save must not show: the open book still has what was acknowledged. Not so with a rollback journal,
// where a save can happen and only putting the journal away fail: then it may show, but nothing older.
void Sitting::mustStayInSight(const store::Workbook& book) {
    if (m_stopped) return;
    try {
        const auto draft = book.draft(m_draft);
        const auto first = m_specs.begin() + static_cast<std::ptrdiff_t>(m_acknowledgedSpec);
        const auto last = book.usesRollbackJournal() ? m_specs.end() : first + 1;
        if (!draft || std::find(first, last, draft->spec) == last)
            m_seen.push_back("the open book shows what was not acknowledged");
    } catch (const store::StoreError&) { // the device may refuse to be read as well
    }
}

void Sitting::keep(store::Workbook& book, const std::string& reason) {
    step([&] {
        const auto kept = book.keep(m_draft, reason);
        if (!kept) return; // an earlier failure left nothing new to keep
        m_revisions.push_back(*kept);
        m_durableSpec = m_acknowledgedSpec;
    });
}

void Sitting::work(store::Workbook& book, bool stopAtFailure) {
    m_stopAtFailure = stopAtFailure;
    for (const int ml : {23, 24, 25})
        saveDraft(book, ml);
    keep(book, "sourer");
    step([&] {
        if (m_revisions.empty()) return;
        tasting::Tasting tasting;
        tasting.revision = m_revisions.back().id;
        tasting.taster = m_taster;
        tasting.scores = tasting::Scores::ofFirst({4, 12, 9, 1, 7});
        tasting.note = std::string(3000, 'n'); // long enough for pages of its own
        m_tastings.push_back(book.addTasting(tasting));
        m_durableSpec = m_acknowledgedSpec;
    });
    for (const int ml : {18, 19})
        saveDraft(book, ml);
    step([&] {
        const auto gin = bottleOf("harbour gin 47", 47);
        book.saveIngredient(gin);
        m_ingredients.push_back(gin);
        m_durableSpec = m_acknowledgedSpec;
    });
    saveDraft(book, 20);
    step([&] {
        book.flush();
        m_durableSpec = m_acknowledgedSpec;
    });
    for (const int ml : {21, 26})
        saveDraft(book, ml);
    keep(book, "rounder");
    step([&] {
        auto drink = drinkNamed("Lantern Ness");
        drink.id = base::DrinkId::random();
        book.addDrink(drink, sour(30));
        m_drinks.push_back(drink);
    });
    step([&] {
        auto settings = book.settings();
        settings.name = "The Low Lamp, upstairs";
        book.saveSettings(settings);
        m_name = settings.name;
    });
    for (const int ml : {27, 28})
        saveDraft(book, ml);
}

std::vector<std::string> Sitting::problems(const std::string& path, bool powerCut) const {
    std::vector<std::string> found = m_seen;
    try {
        for (const auto& problem : store::check(path).problems)
            found.push_back(problem.where + ": " + problem.what);
        const auto book = store::Workbook::open(path, store::OpenMode::ReadWrite, kFaultClock);
        for (const auto& revision : m_revisions)
            if (book->revision(revision.id) != revision) found.push_back("a kept revision is missing");
        for (const auto& tasting : m_tastings) {
            const auto tastings = book->tastings(tasting.revision);
            if (std::find(tastings.begin(), tastings.end(), tasting) == tastings.end())
                found.push_back("a tasting is missing");
        }
        const auto larder = book->larder();
        for (const auto& ingredient : m_ingredients)
            if (!larder.find(ingredient.id) || *larder.find(ingredient.id) != ingredient)
                found.push_back("a bottle is missing");
        for (const auto& drink : m_drinks)
            if (!book->drink(drink.id) || book->drafts(drink.id).size() != 1)
                found.push_back("a drink is missing");
        const std::string name = book->settings().name;
        if (name != m_name && name != "The Low Lamp, upstairs") found.push_back("a setting is lost");
        const auto draft = book->draft(m_draft);
        const auto first =
            m_specs.begin() + static_cast<std::ptrdiff_t>(powerCut ? m_durableSpec : m_acknowledgedSpec);
        if (!draft || std::find(first, m_specs.end(), draft->spec) == m_specs.end())
            found.push_back("the draft is older than it may be");
        // And it can be worked on.
        book->saveDraft(m_draft, sour(99));
        if (book->draft(m_draft)->spec != sour(99)) found.push_back("the book takes no more edits");
    } catch (const store::StoreError& error) {
        found.push_back(std::string("the workbook does not open: ") + error.what());
    }
    return found;
}

Template::Template() : m_path(m_folder.file("template.stillroom")) {
    const auto book = store::Workbook::create(m_path, lowLamp(), kFaultClock);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    book->keep(draft.id, "a first try");
    m_draft = draft.id;
    m_taster = book->addPerson("M. Halloran", "MH");
}

std::vector<store::Migration> withNextSchema() {
    auto migrations = store::schemaMigrations();
    migrations.push_back({migrations.back().version + 1,
                          "CREATE TABLE lamp (row INTEGER PRIMARY KEY, json TEXT NOT NULL) STRICT;"
                          "INSERT INTO lamp (json) SELECT spec FROM draft;"
                          "ALTER TABLE drink ADD COLUMN mood TEXT;"});
    return migrations;
}

std::string upgradeBackupOf(const std::string& path) {
    return path + "-before-v" + std::to_string(withNextSchema().back().version);
}

std::vector<std::string> upgradeProblems(const std::string& path, bool mustBeNew) {
    std::vector<std::string> found;
    const auto must = [&found](bool holds, const char* what) {
        if (!holds) found.emplace_back(what);
    };
    try {
        RawFile raw(path);
        must(raw.text("PRAGMA integrity_check") == "ok", "the file is damaged");
        const int version = std::stoi(raw.text("PRAGMA user_version"));
        const int newest = withNextSchema().back().version;
        const bool isNew = version == newest;
        must(isNew || version == newest - 1, "the version is neither the old nor the new");
        must(isNew || !mustBeNew, "an upgrade that was reported is undone");
        must((raw.text("SELECT count(*) FROM sqlite_schema WHERE name = 'lamp'") == "1") == isNew,
             "the upgrade happened in part");
        must(!isNew || raw.text("SELECT json FROM lamp") == raw.text("SELECT spec FROM draft"),
             "the upgrade happened in part");
        must(raw.text("SELECT count(*) FROM revision") == "1", "a revision is missing");
        const std::string backup = upgradeBackupOf(path);
        must(!isNew || std::filesystem::exists(backup), "upgraded without a copy");
        if (std::filesystem::exists(backup))
            must(store::check(backup).problems.empty(), "the copy of the old file is damaged");
    } catch (const std::exception& error) {
        found.push_back(std::string("the workbook does not open: ") + error.what());
    }
    return found;
}

} // namespace stillroom::test
