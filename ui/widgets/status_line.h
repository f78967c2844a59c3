#pragma once

#include "ui/theme/tokens.h"
#include "ui/widgets/key_hint.h"

#include <QWidget>

#include <vector>

namespace stillroom::ui {

// The foot of the window: what is in hand, which keys act on it, and when it was saved.
class StatusLine : public QWidget {
    Q_OBJECT

  public:
    explicit StatusLine(QWidget* parent = nullptr);

    void setPlace(const QString& place); // "Lemon juice, amount"
    void setHints(const std::vector<KeyHints::Hint>& hints);
    void setSaved(const QString& text); // "Saved 21:14:07"
    void say(const QString& text);      // until the place changes; empty: nothing
    const QString& saved() const { return m_saved; }
    const QString& message() const { return m_message; }
    QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QString m_place;
    QString m_saved;
    QString m_message;
    std::vector<KeyHints::Hint> m_hints;
};

} // namespace stillroom::ui
