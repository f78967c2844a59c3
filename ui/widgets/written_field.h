#pragma once

#include "ui/theme/tokens.h"

#include <QLineEdit>

namespace stillroom::ui {

// One line a person wrote, shown as text on the page and edited where it stands: no frame until it has
// the focus. Undo belongs to the draft.
class WrittenField : public QLineEdit {
    Q_OBJECT

  public:
    WrittenField(Type type, Token ink, QWidget* parent = nullptr);
    // Shows a value unless the field already says it.
    void show(const QString& text);
    QSize sizeHint() const override;
    using QLineEdit::show;

  Q_SIGNALS:
    void entered();  // a visit begins: what is typed from here is one step
    void finished(); // Enter: on to the next field

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void dress();

    Type m_type;
    Token m_ink;
};

} // namespace stillroom::ui
