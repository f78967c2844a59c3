#pragma once

#include "core/exchange/conversion_entry.h"
#include "ui/panels/conversion_form.h"
#include "ui/widgets/value_rows.h"

#include <QWidget>

class QLabel;
class QListWidget;
class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace stillroom::ui {

class WrapLabel;

// What was found, pinned under the page: the answer, what it means or lacks, and what can be done with it.
class AnswerStrip : public QWidget {
    Q_OBJECT

  public:
    explicit AnswerStrip(QWidget* parent = nullptr);

    void setAnswer(const QString& headline, const QString& detail);
    QString headline() const;
    QString detail() const;
    QPushButton* addAct(const QString& text, bool primary = false);

  protected:
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void dress();

    WrapLabel* m_headline;
    WrapLabel* m_detail;
    QWidget* m_acts;
};

// A page of several ways to one thing: the ways on the left, the form of the chosen one on the right, its
// answer pinned below. By keyboard: the arrows choose, Enter goes into the form and on from field to field,
// Esc leaves.
class WaysPage : public QWidget {
    Q_OBJECT

  public:
    WaysPage(const QString& title, QWidget* parent = nullptr);

    QListWidget& list() { return *m_list; }
    ConversionForm& form() { return *m_form; }
    const ConversionForm& form() const { return *m_form; }
    AnswerStrip& strip() { return *m_strip; }
    const AnswerStrip& strip() const { return *m_strip; }
    ValueRows& values() { return *m_values; }
    const ValueRows& values() const { return *m_values; }
    int way() const;
    void chooseWay(int row);

  Q_SIGNALS:
    void closed();
    void wayChosen(int row);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

    void setWays(const QStringList& titles);
    // Between the title and the form: whom it is about. `first` takes the focus on the way to the form.
    void addAbout(QWidget* about);
    void setForm(const physics::Conversion& conversion);
    void setNotes(const QString& source, const QString& limits);
    void setValues(const std::vector<ValueRows::Row>& rows);
    void toFirstField();
    virtual void dress();

  private:
    QListWidget* m_list;
    QScrollArea* m_scroll;
    QLabel* m_title;
    QVBoxLayout* m_about;
    ConversionForm* m_form;
    ValueRows* m_values;
    WrapLabel* m_source;
    WrapLabel* m_limits;
    AnswerStrip* m_strip;
    QWidget* m_divide;
};

// "≈ 79.86", "≥ 3.1": a value of a conversion as it is shown.
QString convertedText(const physics::ConvertedValue& value, int decimals);

} // namespace stillroom::ui
