#pragma once

#include "core/tasting/tasting.h"

#include <QDialog>

#include <vector>

class QLabel;
class QLineEdit;
class QPushButton;

namespace stillroom::ui {

// Who tastes: initials and names to put right, and people to take out. What they tasted stays.
class PeopleDialog : public QDialog {
    Q_OBJECT

  public:
    explicit PeopleDialog(const std::vector<tasting::Person>& people, QWidget* parent = nullptr);

    std::size_t rowCount() const { return m_rows.size(); }
    QLineEdit& initials(std::size_t row) { return *m_rows.at(row).initials; }
    QLineEdit& name(std::size_t row) { return *m_rows.at(row).name; }
    QPushButton& remove(std::size_t row) { return *m_rows.at(row).remove; }
    QString note() const;

  Q_SIGNALS:
    // Who is called otherwise now, and who is to be taken out.
    void saveAsked(const std::vector<stillroom::tasting::Person>& renamed,
                   const std::vector<stillroom::base::PersonId>& removed);

  private:
    struct Row {
        tasting::Person person;
        QLineEdit* initials;
        QLineEdit* name;
        QPushButton* remove;
        bool gone = false;
    };
    void addRow(const tasting::Person& person, QWidget* into);
    void toggleGone(std::size_t row);
    void check();
    void save();

    std::vector<Row> m_rows;
    QLabel* m_note;
    QPushButton* m_save;
};

} // namespace stillroom::ui
