#pragma once

#include "ui/session/draft_session.h"
#include "ui/session/workbook_session.h"

#include <QObject>
#include <QStringList>

#include <functional>
#include <map>
#include <memory>

namespace stillroom::ui {

// What lies on the bench now: one open book and the draft in hand. Opens and closes both; every failure of
// the world is caught here and told as a sentence.
class Desk : public QObject {
    Q_OBJECT

  public:
    explicit Desk(QObject* parent = nullptr);
    ~Desk() override;

    WorkbookSession* book() const { return m_book.get(); }
    DraftSession* draft() const { return m_draft; }

    // False: it failed, and the open book is still open.
    bool openBook(const QString& path, store::OpenMode mode = store::OpenMode::ReadWrite);
    bool createBook(const QString& path, const store::BookSettings& settings);
    // Makes the book with `make`, then opens it.
    bool makeBook(const QString& path, const std::function<void(const std::string&)>& make);
    void closeBook();
    bool saveCopy(const QString& path);

    // The draft of it that was worked on last.
    bool openDrink(base::DrinkId drink);
    bool openDraft(base::DraftId draft);
    // A further draft of the drink in hand, starting from a revision; it is in hand then. One that stands on
    // that revision already and says nothing else is taken instead of another.
    bool branch(base::RevisionId from);
    bool newDrink(history::DrinkForm form, const QString& name = {}, const spec::Spec& spec = {},
                  const QString& notes = {});
    bool binDrink(base::DrinkId drink, bool binned);
    bool makeHouse(base::RevisionId revision);
    // Runs a write on the book, telling a failure. False: it failed and nothing changed.
    bool attempt(const std::function<void()>& write);

    // Where a new book goes when nobody said: "Untitled.stillroom" among the documents, numbered if taken.
    static QString freeBookPath(const QString& name);
    static QStringList recentBooks();
    static void rememberBook(const QString& path);

  Q_SIGNALS:
    void bookChanged();                                    // another book, or none
    void draftChanged(stillroom::ui::DraftSession* draft); // another draft, or none
    void failed(const stillroom::ui::Sentence& sentence);

  private:
    // A book only looked at, for a picture, is not among those worked on last.
    void take(std::unique_ptr<store::Workbook> book, bool remember = true);
    void putDown();

    base::SystemClock m_clock;
    std::unique_ptr<WorkbookSession> m_book;
    DraftSession* sessionOf(base::DraftId draft);

    // Drafts of this sitting keep their undo steps while another is in hand.
    std::map<base::DraftId, std::unique_ptr<DraftSession>> m_drafts;
    std::map<base::DrinkId, base::DraftId> m_lastDrafts; // of this sitting
    DraftSession* m_draft = nullptr;
};

} // namespace stillroom::ui
