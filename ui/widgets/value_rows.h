#pragma once

#include <QTableWidget>

#include <vector>

namespace stillroom::ui {

// Computed values under a form, in its columns: label, number, unit. As high as its rows; the page scrolls,
// it never does.
class ValueRows : public QTableWidget {
    Q_OBJECT

  public:
    explicit ValueRows(QWidget* parent = nullptr);

    struct Row {
        QString label, value, unit; // a label set in with spaces: a part of the row above
    };
    void setRows(const std::vector<Row>& rows);
    QString asText() const; // a line for each row

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void dress();
};

} // namespace stillroom::ui
