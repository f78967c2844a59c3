#pragma once

#include "ui/panels/blind/blind_desk.h"

#include <QDialog>

class QLabel;
class QPagedPaintDevice;
class QPrinter;
class QPrintPreviewWidget;

namespace stillroom::ui {

enum class PaperKind : unsigned char { Sheets, Key, Result };

// Draws the sheets, the key or the result on pages; returns how many, 0 where the device took nothing.
int drawPanelPaper(QPagedPaintDevice& device, PaperKind kind, const BlindSession& session);
QString panelPaperText(PaperKind kind, const BlindSession& session);

// What would be printed, as pages: to print, to keep as a PDF, to copy as text.
class PaperDialog : public QDialog {
    Q_OBJECT

  public:
    PaperDialog(PaperKind kind, const BlindSession& session, QWidget* parent = nullptr);
    ~PaperDialog() override;

    void copyText();
    bool savePdf(const QString& path);
    QString said() const;

  private:
    void print();
    void saveByDialog();
    void say(const QString& what);

    PaperKind m_kind;
    BlindSession m_session;
    std::unique_ptr<QPrinter> m_printer;
    QPrintPreviewWidget* m_preview;
    QLabel* m_said;
};

} // namespace stillroom::ui
