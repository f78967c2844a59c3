#pragma once

#include "core/spec/held_readings.h"
#include "ui/plots/held_geometry.h"

#include <QWidget>

#include <functional>
#include <optional>

class QBoxLayout;
class QButtonGroup;
class QLabel;
class QPushButton;
class QTableWidget;

namespace stillroom::ui {

class HeldCurve;
class NumberEdit;

HeldValues heldValues(const spec::HeldCurve& curve, const spec::HeldAsk& ask);
// What the curve rests on, and what would make it surer.
QString heldBasis(const spec::HeldCurve& curve, const spec::HeldAsk& ask);

// The drink over half an hour in the glass: with ice, without, in a warm room; set right by a thermometer.
class HeldPane : public QWidget {
    Q_OBJECT

  public:
    // Follows the drink for what is asked; nullopt when it cannot be followed.
    using Follow = std::function<std::optional<spec::HeldCurve>(const spec::HeldAsk&)>;

    explicit HeldPane(QWidget* parent = nullptr);

    // Another drink forgets what was measured on the last one, and takes what was measured when it was
    // tasted.
    void startWith(spec::HeldIn in, const std::optional<spec::HeldMeasured>& measured = {});
    void setFollow(const Follow& follow);
    HeldCurve& curve() { return *m_curve; }
    QTableWidget& table() { return *m_table; }
    NumberEdit& measuredC() { return *m_measuredC; }
    NumberEdit& measuredMinutes() { return *m_minutes; }
    // On a narrow bench the table stands under the curve.
    void setNarrow(bool narrow);
    QPushButton& choice(spec::HeldIn in) const;
    QString basis() const;

  Q_SIGNALS:
    void closed();

  protected:
    void changeEvent(QEvent* event) override;

  private:
    spec::HeldAsk ask() const;
    void dress();
    void refresh();
    void fillTable(const spec::HeldCurve& curve);

    Follow m_follow;
    QLabel* m_title;
    QButtonGroup* m_in;
    QPushButton* m_close;
    QLabel* m_measured;
    NumberEdit* m_measuredC;
    QLabel* m_after;
    NumberEdit* m_minutes;
    QLabel* m_afterUnit;
    HeldCurve* m_curve;
    QBoxLayout* m_both;
    QTableWidget* m_table; // the same at the minutes one asks for
    QLabel* m_basis;
};

} // namespace stillroom::ui
