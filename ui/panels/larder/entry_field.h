#pragma once

#include <QLineEdit>

#include <functional>

class QCompleter;
class QStringListModel;

namespace stillroom::ui {

// A field of the larder's sheet. What is typed is taken when it is left or with Enter; what cannot be read
// stays as typed, framed. Enter on a field nobody typed in accepts what is pending; Esc puts back what stood
// there, then leaves.
class EntryField : public QLineEdit {
    Q_OBJECT

  public:
    explicit EntryField(const QString& name, QWidget* parent = nullptr);

    // Shows a value unless somebody is typing here; `typed`: what stands there unread instead, empty for
    // none.
    void showValue(const QString& value, const QString& typed = {});
    bool isUnreadable() const { return m_unreadable; }
    void setUnreadable(bool unreadable);
    // Takes what is typed now. Nothing happens when nobody typed.
    void commit();
    // Offers names while typing.
    void offer(std::function<QStringList(const QString&)> search);

  Q_SIGNALS:
    void entered(const QString& text);
    void acceptAsked();
    void leaveAsked();

  protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    bool m_unreadable = false;
    QString m_shown; // for Esc
    QCompleter* m_completer = nullptr;
};

} // namespace stillroom::ui
