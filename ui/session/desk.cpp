#include "ui/session/desk.h"

#include "ui/text/border.h"

#include <QDir>
#include <QFileInfo>
#include <QSettings>
#include <QStandardPaths>

#include <algorithm>

namespace stillroom::ui {

namespace {

constexpr int kRecentBooks = 8;
const QString kRecentKey = QStringLiteral("books/recent");

} // namespace

Desk::Desk(QObject* parent) : QObject(parent) {}

Desk::~Desk() {
    m_drafts.clear();
}

bool Desk::attempt(const std::function<void()>& write) {
    try {
        write();
        return true;
    } catch (const store::StoreError& error) {
        Q_EMIT failed(storeErrorSentence(error));
    } catch (const std::exception& error) {
        Q_EMIT failed({fromCore(error.what()), tr("Nothing was changed."), {}});
    }
    return false;
}

bool Desk::openBook(const QString& path, store::OpenMode mode) {
    const QString wanted = QFileInfo(path).absoluteFilePath();
    if (m_book && QFileInfo(fromCore(m_book->book().path())).absoluteFilePath() == wanted) return true;
    return attempt([&] {
        take(store::Workbook::open(toCore(wanted), mode, m_clock), mode == store::OpenMode::ReadWrite);
    });
}

bool Desk::createBook(const QString& path, const store::BookSettings& settings) {
    return attempt([&] { take(store::Workbook::create(toCore(path), settings, m_clock)); });
}

bool Desk::makeBook(const QString& path, const std::function<void(const std::string&)>& make) {
    if (!make) return false;
    return attempt([&] {
        make(toCore(path));
        take(store::Workbook::open(toCore(path), store::OpenMode::ReadWrite, m_clock));
    });
}

void Desk::take(std::unique_ptr<store::Workbook> book, bool remember) {
    auto session = std::make_unique<WorkbookSession>(std::move(book), m_clock);
    putDown();
    m_book = std::move(session);
    if (remember) rememberBook(fromCore(m_book->book().path()));
    Q_EMIT bookChanged();
    // The page opens on something: the first drink that is not in the bin.
    for (const auto& summary : m_book->shelf())
        if (!summary.binned && summary.form == history::DrinkForm::Drink) {
            openDrink(summary.id);
            break;
        }
}

void Desk::putDown() {
    if (m_draft != nullptr) {
        m_draft = nullptr;
        Q_EMIT draftChanged(nullptr);
    }
    m_drafts.clear();
    m_lastDrafts.clear();
    m_book.reset();
}

void Desk::closeBook() {
    if (!m_book) return;
    // Panels let go of the book before it goes.
    std::unique_ptr<WorkbookSession> closing;
    if (m_draft != nullptr) {
        m_draft = nullptr;
        Q_EMIT draftChanged(nullptr);
    }
    m_drafts.clear();
    m_lastDrafts.clear();
    std::swap(closing, m_book);
    Q_EMIT bookChanged();
}

bool Desk::saveCopy(const QString& path) {
    if (!m_book) return false;
    return attempt([&] { m_book->book().saveCopy(toCore(path)); });
}

bool Desk::openDrink(base::DrinkId drink) {
    if (!m_book) return false;
    if (m_draft && m_draft->drink().id == drink) return true;
    if (const auto last = m_lastDrafts.find(drink); last != m_lastDrafts.end())
        return openDraft(last->second);
    std::optional<base::DraftId> draft;
    const bool read = attempt([&] {
        const auto drafts = m_book->book().drafts(drink);
        if (drafts.empty())
            throw store::StoreError(store::StoreErrorKind::NotFound, 0, m_book->book().path(), "no draft");
        const auto newer = [](const history::Draft& a, const history::Draft& b) {
            return a.saved.utcMs < b.saved.utcMs;
        };
        draft = std::max_element(drafts.begin(), drafts.end(), newer)->id;
    });
    return read && openDraft(*draft);
}

bool Desk::openDraft(base::DraftId draft) {
    if (!m_book) return false;
    if (m_draft && m_draft->draft().id == draft) return true;
    // What was made here is poured elsewhere as it now reads.
    if (m_draft && m_draft->drink().form == history::DrinkForm::Preparation)
        attempt([&] { m_book->reloadLarder(); });
    DraftSession* session = nullptr;
    // Its house or published revision may be another by now: an edit must not write the old one back.
    if (!attempt([&] {
            session = sessionOf(draft);
            session->reloadDrink();
        }))
        return false;
    m_draft = session;
    m_lastDrafts[session->drink().id] = draft;
    Q_EMIT draftChanged(m_draft);
    return true;
}

// A session whose drink was renamed through another draft of it is begun anew: its undo steps would write
// the old name back.
DraftSession* Desk::sessionOf(base::DraftId draft) {
    auto found = m_drafts.find(draft);
    if (found != m_drafts.end() && !found->second->wordsStand()) {
        m_drafts.erase(found);
        found = m_drafts.end();
    }
    if (found == m_drafts.end())
        found = m_drafts.emplace(draft, std::make_unique<DraftSession>(*m_book, draft)).first;
    return found->second.get();
}

bool Desk::branch(base::RevisionId from) {
    if (!m_book) return false;
    base::DraftId made;
    const bool done = attempt([&] {
        const auto revision = m_book->book().revision(from);
        if (revision)
            for (const auto& draft : m_book->book().drafts(revision->drink))
                if (draft.basedOn == from && draft.spec == revision->spec &&
                    (!m_draft || m_draft->draft().id != draft.id)) {
                    made = draft.id;
                    return;
                }
        made = m_book->book().branch(from).id;
    });
    if (!done) return false;
    m_book->reloadShelf();
    return openDraft(made);
}

bool Desk::newDrink(history::DrinkForm form, const QString& name, const spec::Spec& spec,
                    const QString& notes) {
    if (!m_book) return false;
    history::Drink drink;
    drink.form = form;
    drink.name = toCore(name);
    drink.notes = toCore(notes);
    base::DrinkId made;
    if (!attempt([&] { made = m_book->addDrink(drink, spec).drink; })) return false;
    return openDrink(made);
}

bool Desk::binDrink(base::DrinkId id, bool binned) {
    if (!m_book) return false;
    const bool done = attempt([&] {
        auto drink = m_book->book().drink(id);
        if (!drink) return;
        drink->binned = binned;
        m_book->saveDrink(*drink);
        // A draft in the hand would write its own old record over this one.
        for (auto& [draft, session] : m_drafts)
            if (session->drink().id == id) session->reloadDrink();
    });
    if (done && binned && m_draft && m_draft->drink().id == id) {
        m_draft = nullptr;
        Q_EMIT draftChanged(nullptr);
        std::erase_if(m_drafts, [&](const auto& held) { return held.second->drink().id == id; });
        m_lastDrafts.erase(id);
    }
    return done;
}

bool Desk::makeHouse(base::RevisionId revision) {
    if (!m_draft) return false;
    return attempt([&] {
        auto drink = m_book->book().drink(m_draft->drink().id);
        if (!drink) return;
        drink->house = revision;
        m_book->saveDrink(*drink);
        m_draft->reloadDrink();
        m_book->reloadShelf();
    });
}

QString Desk::freeBookPath(const QString& name) {
    QDir documents(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation));
    documents.mkpath(QStringLiteral("."));
    QString path = documents.filePath(name + QStringLiteral(".stillroom"));
    for (int n = 2; QFileInfo::exists(path); ++n)
        path = documents.filePath(QStringLiteral("%1 %2.stillroom").arg(name).arg(n));
    return path;
}

QStringList Desk::recentBooks() {
    QStringList books;
    for (const auto& path : QSettings().value(kRecentKey).toStringList())
        if (QFileInfo::exists(path)) books << path;
    return books;
}

void Desk::rememberBook(const QString& path) {
    const QString absolute = QFileInfo(path).absoluteFilePath();
    auto books = QSettings().value(kRecentKey).toStringList();
    books.removeAll(absolute);
    books.prepend(absolute);
    QSettings().setValue(kRecentKey, QStringList(books.mid(0, kRecentBooks)));
}

} // namespace stillroom::ui
