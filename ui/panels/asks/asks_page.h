#pragma once

#include "ui/panels/asks/asks_values.h"

#include <QWidget>

class QBoxLayout;
class QFrame;
class QLabel;
class QScrollArea;

namespace stillroom::ui {

class AskList;
class CourseCharts;

// What tasters ask for: wishes with changes to try on one side, scores along the trail on the other (below,
// in a narrow window).
class AsksPage : public QWidget {
    Q_OBJECT

  public:
    explicit AsksPage(QWidget* parent = nullptr);
    void setValues(const AsksValues& values, bool taking);

    AskList& list() { return *m_list; }
    CourseCharts& charts() { return *m_charts; }

  Q_SIGNALS:
    void changeTaken(const stillroom::ui::AskChange& change);
    void closed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

  private:
    void place();

    AsksValues m_values;
    QLabel* m_title;
    QLabel* m_about;
    QBoxLayout* m_head;
    QBoxLayout* m_body;
    QFrame* m_divide;
    AskList* m_list;
    CourseCharts* m_charts;
    QScrollArea* m_scroll;
};

} // namespace stillroom::ui
