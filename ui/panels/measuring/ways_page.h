#pragma once

#include "core/exchange/conversion_entry.h"
#include "ui/panels/form_page.h"

#include <QWidget>

class QPushButton;

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

// A page of several ways to one thing, its answer pinned below.
class WaysPage : public FormPage {
    Q_OBJECT

  public:
    WaysPage(const QString& title, QWidget* parent = nullptr);

    AnswerStrip& strip() { return *m_strip; }
    const AnswerStrip& strip() const { return *m_strip; }
    int way() const;
    void chooseWay(int row);

  Q_SIGNALS:
    void wayChosen(int row);

  protected:
    void setWays(const QStringList& titles);
    // Between the title and the form: whom it is about. `first` takes the focus on the way to the form.
    void addAbout(QWidget* about);
    void setForm(const physics::Conversion& conversion);
    void setNotes(const QString& source, const QString& limits);
    void setValues(const std::vector<ValueRows::Row>& rows);

  private:
    QVBoxLayout* m_about;
    QLabel* m_source;
    QLabel* m_limits;
    AnswerStrip* m_strip;
};

// "≈ 79.86", "≥ 3.1": a value of a conversion as it is shown.
QString convertedText(const physics::ConvertedValue& value, int decimals);

} // namespace stillroom::ui
