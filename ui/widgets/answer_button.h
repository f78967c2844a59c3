#pragma once

#include <QPushButton>

namespace stillroom::ui {

// One answer to a question about a line: its key as a key, then the whole reading. The two never run
// together, since "1" before "¾ floz" would read as one number.
class AnswerButton : public QPushButton {
    Q_OBJECT

  public:
    AnswerButton(const QString& key, const QString& reading, QWidget* parent = nullptr);
    QString key() const { return m_key; }
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return {60, sizeHint().height()}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QString m_key;
};

} // namespace stillroom::ui
