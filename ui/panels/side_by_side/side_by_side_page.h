#pragma once

#include "ui/panels/side_by_side/side_table.h"

#include <QWidget>

class QBoxLayout;
class QCheckBox;
class QFrame;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace stillroom::ui {

class BalanceMap;
class SideView;

// Two to four revisions, or the draft, beside each other: what differs, what it did, what tasters said, and
// what may be concluded from it.
class SideBySidePage : public QWidget {
    Q_OBJECT

  public:
    explicit SideBySidePage(QWidget* parent = nullptr);

    void setValues(const SideBySideValues& values);
    SideView& view() { return *m_view; }
    BalanceMap& map() { return *m_map; }

  Q_SIGNALS:
    void closed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void dress();
    void place();
    void showFindings();
    void copy();

    SideBySideValues m_values;
    QLabel* m_title;
    QLabel* m_about;
    QCheckBox* m_only;
    QPushButton* m_copy;
    SideView* m_view;
    BalanceMap* m_map;
    QWidget* m_findings;
    QVBoxLayout* m_findingsLayout;
    QBoxLayout* m_body;
    QBoxLayout* m_head;
    QBoxLayout* m_side;
};

} // namespace stillroom::ui
