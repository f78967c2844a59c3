#pragma once

#include "ui/panels/tasting/tasting_sheet.h"

#include <QWidget>

class QBoxLayout;
class QComboBox;
class QFrame;
class QLabel;
class QLineEdit;
class QPushButton;
class QScrollArea;
class QSpacerItem;

namespace stillroom::ui {

class Banner;
class ProseEdit;
class ScaleEntry;
class TastingList;
class VerdictKeys;

// Where a kept revision is tasted, by keyboard from top to bottom: who, five scales, a note, a verdict, what
// to try next. Enter goes on, but for the note, where it makes a new line and Tab goes on; Ctrl Enter saves
// from anywhere.
class TastingPage : public QWidget {
    Q_OBJECT

  public:
    explicit TastingPage(QWidget* parent = nullptr);

    // Clears the entry and puts the keyboard on the first thing that is not known.
    void setSheet(const TastingSheet& sheet);
    TastingInput input() const;
    void setInput(const TastingInput& input); // over an empty entry: what was written before
    bool holdsUnsaved() const { return input().saysSomething(); }
    void showError(const QString& fact, const QString& consequence, const QString& act = {});
    void startEntry(); // focus

  Q_SIGNALS:
    void saveRequested(const stillroom::ui::TastingInput& input);
    void closed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QWidget* makeEntry();
    void chain(const std::vector<QWidget*>& order);
    void goOn(QWidget* from, int direction);
    void save();
    void dress();
    void place();
    QString aboutText() const;

    TastingSheet m_sheet;
    std::vector<QWidget*> m_order;
    QLabel* m_title;
    QLabel* m_about;
    QComboBox* m_who;
    QLabel* m_when;
    QLabel* m_rings;
    std::array<ScaleEntry*, tasting::kScaleCount> m_scales{};
    ProseEdit* m_note;
    QFrame* m_noteFrame;
    QSpacerItem* m_noteRoom;
    QFrame* m_divide;
    QBoxLayout* m_body;
    QBoxLayout* m_head;
    QBoxLayout* m_column;
    VerdictKeys* m_verdict;
    QLineEdit* m_tryNext;
    QPushButton* m_save;
    Banner* m_banner;
    TastingList* m_list;
    QScrollArea* m_scroll;
    std::vector<QLabel*> m_captions;
};

} // namespace stillroom::ui
