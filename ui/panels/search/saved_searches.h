#pragma once

#include "core/store/search_of_book.h"

#include <QWidget>

#include <vector>

class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace stillroom::ui {

// Searches kept under a name: Enter runs one, Delete removes it; below them the name for a new one.
class SavedSearches : public QWidget {
    Q_OBJECT

  public:
    explicit SavedSearches(QWidget* parent = nullptr);

    void show(const std::vector<store::SavedSearch>& searches);
    void setSavable(bool savable); // something is asked for, and the book can be written
    QListWidget& list() { return *m_list; }
    QLineEdit& name() { return *m_name; }
    QPushButton& save() { return *m_save; }

  Q_SIGNALS:
    void runAsked(const stillroom::store::SavedSearch& search);
    void removeAsked(const stillroom::store::SavedSearch& search);
    void saveAsked(const QString& name);

  protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    const store::SavedSearch* current() const;
    void enable();
    void dress();

    std::vector<store::SavedSearch> m_searches;
    QLabel *m_heading, *m_none;
    QListWidget* m_list;
    QLineEdit* m_name;
    QPushButton* m_save;
    bool m_savable = false;
};

} // namespace stillroom::ui
