#pragma once

#include <QLineEdit>

#include <optional>

namespace stillroom::ui {

// A number typed into a form. Comma and point both mark decimals whatever the locale; what cannot be read
// is framed as an error and has no value.
class NumberEdit : public QLineEdit {
    Q_OBJECT

  public:
    explicit NumberEdit(QWidget* parent = nullptr);
    void setValue(std::optional<double> value, int decimals);
    std::optional<double> value() const;
    bool isUnreadable() const; // something stands there that is no number
    void setBelowZeroAllowed(bool allowed) { m_belowZero = allowed; } // temperatures

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    bool m_belowZero = false;
};

} // namespace stillroom::ui
