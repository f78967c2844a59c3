#pragma once

#include "core/spec/more_readings.h"

#include <QWidget>

#include <functional>

class QLabel;
class QPushButton;

namespace stillroom::ui {

class MoreTable;
class NumberEdit;

// The readings that are not worth a row at every keystroke: computed while this is open, and only then.
class MorePane : public QWidget {
    Q_OBJECT

  public:
    using Read = std::function<spec::FurtherReadings(quantity::Temperature freezer)>;

    explicit MorePane(QWidget* parent = nullptr);

    void setRead(const Read& read, const spec::Readings& readings);
    MoreTable& table() { return *m_table; }
    NumberEdit& freezer() { return *m_freezer; }
    QString says() const; // about what was typed; empty when it is fine

  Q_SIGNALS:
    void closed();

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void dress();
    void refresh();

    Read m_read;
    spec::Readings m_readings;
    quantity::Temperature m_celsius = spec::kUsualFreezer; // the last that could be used
    QLabel* m_title;
    QLabel* m_freezerLabel;
    NumberEdit* m_freezer;
    QLabel* m_freezerUnit;
    QPushButton* m_close;
    QLabel* m_says;
    MoreTable* m_table;
};

} // namespace stillroom::ui
