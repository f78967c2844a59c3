#pragma once

#include "ui/session/edit_command.h"
#include "ui/session/workbook_session.h"

#include <QDialog>

#include <functional>

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace stillroom::ui {

class PickDialog;

// Where a drink comes from: another drink of the book, a source outside it, thanks; and the tags it is found
// by. Below them, what will be printed.
class LineageDialog : public QDialog {
    Q_OBJECT

  public:
    LineageDialog(WorkbookSession& book, base::DrinkId drink, const DrinkWords& words,
                  QWidget* parent = nullptr);

    QPushButton& choose() { return *m_choose; }
    QPushButton& none() { return *m_none; }
    QComboBox& revision() { return *m_revision; }
    QLineEdit& person() { return *m_person; }
    QLineEdit& place() { return *m_place; }
    QLineEdit& year() { return *m_year; }
    QLineEdit& work() { return *m_work; }
    QLineEdit& thanks() { return *m_thanks; }
    QLineEdit& tags() { return *m_tags; }
    QString printed() const;

  Q_SIGNALS:
    void saveAsked(const stillroom::ui::DrinkWords& words);

  private:
    DrinkWords words() const;
    void pick();
    void take(base::DrinkId drink);
    void fillRevisions();
    void tell(const QString& problem = {});

    WorkbookSession& m_book;
    base::DrinkId m_drink;
    DrinkWords m_words;
    std::vector<base::RevisionId> m_revisions; // of the drink it comes after, newest first
    QPushButton *m_choose, *m_none;
    QComboBox* m_revision;
    QLineEdit *m_person, *m_place, *m_year, *m_work, *m_thanks, *m_tags;
    QLabel *m_printed, *m_problem;
};

} // namespace stillroom::ui
