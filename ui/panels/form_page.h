#pragma once

#include "ui/panels/conversion_form.h"
#include "ui/theme/tokens.h"
#include "ui/widgets/value_rows.h"

#include <QWidget>

class QLabel;
class QListWidget;
class QScrollArea;
class QVBoxLayout;

namespace stillroom::ui {

// A page of many forms, one at a time: their titles on the left, the chosen one with its values and where
// they come from on the right. By keyboard: Enter in the list goes into the form, Esc leaves the page.
class FormPage : public QWidget {
    Q_OBJECT

  public:
    // `wide`: the list, pixels at 100 %.
    FormPage(const QString& title, int wide, QWidget* parent = nullptr);

    QListWidget& list() { return *m_list; }
    ConversionForm& form() { return *m_form; }
    const QListWidget& list() const { return *m_list; }
    const ConversionForm& form() const { return *m_form; }
    ValueRows& values() { return *m_values; }
    const ValueRows& values() const { return *m_values; }

    // On a page a label's ink would be that of a text.
    static void setInk(QLabel& label, Token token);

  Q_SIGNALS:
    void closed();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

    // Where a page puts what is its own: beside the list, in the sheet that scrolls, and under it.
    QVBoxLayout& side() { return *m_sideColumn; }
    QVBoxLayout& sheet() { return *m_sheetColumn; }
    QVBoxLayout& underneath() { return *m_right; }
    // Small print at the end of the sheet: selectable, no wider than one reads.
    QLabel* addSmallPrint();
    void setTitle(const QString& title);
    QString title() const;
    void toFirstField();
    void toTop();
    virtual void dress();

  private:
    int m_wide;
    QWidget* m_side;
    QVBoxLayout* m_sideColumn;
    QListWidget* m_list;
    QScrollArea* m_scroll;
    QVBoxLayout* m_sheetColumn;
    QVBoxLayout* m_right;
    QLabel* m_title;
    ConversionForm* m_form;
    ValueRows* m_values;
    QList<QLabel*> m_smallPrint;
};

} // namespace stillroom::ui
