#pragma once

#include "core/store/search_of_book.h"

#include <QWidget>

#include <functional>

class QHBoxLayout;
class QLabel;
class QLineEdit;
class QScrollArea;
class QVBoxLayout;

namespace stillroom::ui {

class Banner;
class FilterForm;
class ResultsList;
class ResultsModel;
class SavedSearches;
class SearchReading;
class WorkbookSession;

// Finding as one types: the words above, what was found below them, further questions on the left.
class SearchPage : public QWidget {
    Q_OBJECT

  public:
    using Attempt = std::function<bool(const std::function<void()>&)>;
    // The book and the reading outlive the page. `attempt` runs what may fail and tells it.
    SearchPage(WorkbookSession& book, SearchReading& reading, Attempt attempt, QWidget* parent = nullptr);

    void ask(const store::SearchRequest& request);
    const store::SearchRequest& request() const { return m_request; }
    QLineEdit& words() { return *m_words; }
    FilterForm& filters() { return *m_filters; }
    SavedSearches& saved() { return *m_saved; }
    ResultsList& list() { return *m_list; }
    ResultsModel& results() { return *m_model; }
    QString told() const; // what stands above the results
    QString emptyText() const;
    const Banner& banner() const { return *m_banner; }

  Q_SIGNALS:
    void closed();
    void said(const QString& what);
    void openAsked(base::DrinkId drink, std::optional<base::RevisionId> revision);
    void asked(const stillroom::store::SearchRequest& request);

  protected:
    bool eventFilter(QObject* object, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void search(bool keep = false);
    void tell();
    void openCurrent();
    void reloadSaved();
    void save(const QString& name);
    void remove(const store::SavedSearch& search);
    void dress();

    WorkbookSession& m_book;
    SearchReading& m_reading;
    Attempt m_attempt;
    store::SearchRequest m_request;
    QLabel* m_title;
    QLineEdit* m_words;
    Banner* m_banner;
    std::function<void()> m_bannerAct;
    QWidget* m_left;
    QScrollArea* m_leftScroll;
    QVBoxLayout* m_leftColumn;
    QHBoxLayout* m_head;
    FilterForm* m_filters;
    SavedSearches* m_saved;
    QLabel *m_found, *m_read, *m_unread;
    QVBoxLayout* m_toldLayout;
    QLabel* m_empty;
    ResultsModel* m_model;
    ResultsList* m_list;
    QWidget* m_divide;
};

} // namespace stillroom::ui
