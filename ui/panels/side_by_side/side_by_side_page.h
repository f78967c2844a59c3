#pragma once

#include "ui/panels/side_by_side/side_table.h"

#include <QWidget>

#include <optional>

class QBoxLayout;
class QCheckBox;
class QFrame;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace stillroom::ui {

class BalanceMap;
class ChoiceTabs;
class SideView;

// Two to four revisions, drafts or drinks beside each other: what differs, what it did, what tasters said,
// and what may be concluded from it. Left and right move the base, 1 to 4 choose the stage, P what the
// numbers are stated for, D only the differences; + adds a column and Delete takes the base away.
class SideBySidePage : public QWidget {
    Q_OBJECT

  public:
    explicit SideBySidePage(QWidget* parent = nullptr);

    void setValues(const SideBySideValues& values);
    void setReadOnly(bool readOnly); // then nothing can be branched
    // For a spreadsheet as tabs, for a document as a table.
    void copyTable();
    // For a letter or a note: aligned text.
    void copyText();
    SideView& view() { return *m_view; }
    BalanceMap& map() { return *m_map; }

  Q_SIGNALS:
    void closed();
    void addAsked();
    void removeAsked(std::size_t column);
    void branchAsked(base::RevisionId from);
    void printAsked();
    void said(const QString& text);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void dress();
    void place();
    void showFindings();
    void readAnew();
    void showBranch();
    std::optional<base::RevisionId> branchable() const;

    SideBySideValues m_values;
    QLabel* m_title;
    QLabel* m_about;
    QCheckBox* m_only;
    QPushButton* m_add;
    QPushButton* m_copy;
    QPushButton* m_copyText;
    QPushButton* m_print;
    QPushButton* m_branch;
    ChoiceTabs* m_stages;
    ChoiceTabs* m_per;
    bool m_readOnly = false;
    SideView* m_view;
    BalanceMap* m_map;
    QWidget* m_findings;
    QVBoxLayout* m_findingsLayout;
    QBoxLayout* m_body;
    QBoxLayout* m_head;
    QBoxLayout* m_choices;
    QBoxLayout* m_side;
};

} // namespace stillroom::ui
