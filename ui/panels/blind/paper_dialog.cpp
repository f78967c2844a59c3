#include "ui/panels/blind/paper_dialog.h"

#include "ui/panels/blind/blind_parts.h"
#include "ui/text/border.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QClipboard>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QPdfWriter>
#include <QPrintDialog>
#include <QPrintPreviewWidget>
#include <QPrinter>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

const QMarginsF kMargins(14, 14, 14, 14); // mm

QString titleOf(PaperKind kind) {
    if (kind == PaperKind::Sheets) return QObject::tr("Taster sheets");
    return kind == PaperKind::Key ? QObject::tr("Pourer’s key") : QObject::tr("Result");
}

QString fileOf(PaperKind kind) {
    if (kind == PaperKind::Sheets) return QObject::tr("taster-sheets.pdf");
    return kind == PaperKind::Key ? QObject::tr("pourers-key.pdf") : QObject::tr("panel-result.pdf");
}

} // namespace

QString panelPaperText(PaperKind kind, const BlindSession& session) {
    if (kind == PaperKind::Sheets) return fromCore(tasting::sheetsText(session.panel, session.names));
    if (kind == PaperKind::Key) return fromCore(tasting::keyText(session.panel, session.names));
    return fromCore(tasting::resultText(session.panel, session.names));
}

PaperDialog::PaperDialog(PaperKind kind, const BlindSession& session, QWidget* parent)
    : QDialog(parent),
      m_kind(kind),
      m_session(session),
      m_printer(std::make_unique<QPrinter>(QPrinter::HighResolution)),
      m_preview(new QPrintPreviewWidget(m_printer.get())),
      m_said(paragraph(QString(), Type::Control, Token::Ink2)) {
    const auto& theme = Theme::current();
    m_printer->setPageMargins(kMargins, QPageLayout::Millimeter);
    setWindowTitle(titleOf(kind));
    m_preview->setAccessibleName(titleOf(kind));
    m_preview->setViewMode(QPrintPreviewWidget::AllPagesView);
    m_preview->fitToWidth();
    connect(m_preview, &QPrintPreviewWidget::paintRequested, this,
            [this](QPrinter* printer) { drawPanelPaper(*printer, m_kind, m_session); });
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    column->setSpacing(theme.pxInt(8));
    column->addWidget(paragraph(titleOf(kind), Type::Title, Token::Ink));
    if (kind == PaperKind::Key)
        column->addWidget(
            paragraph(tr("Not for anyone who tastes or takes answers down."), Type::Control, Token::Ink2));
    column->addWidget(m_preview, 1);
    column->addWidget(m_said);
    auto* row = new QHBoxLayout;
    const auto add = [&](const QString& text, auto slot, bool act = false) {
        auto* button = blindButton(text, act);
        connect(button, &QPushButton::clicked, this, slot);
        row->addWidget(button);
        return button;
    };
    auto* print = add(
        tr("&Print…"), [this] { this->print(); }, true);
    add(tr("Save as P&DF…"), [this] { saveByDialog(); });
    add(tr("&Copy as text"), [this] { copyText(); });
    row->addStretch(1);
    add(tr("C&lose"), [this] { reject(); });
    column->addLayout(row);
    resize(theme.pxInt(760), theme.pxInt(640));
    print->setFocus();
}

PaperDialog::~PaperDialog() = default;

QString PaperDialog::said() const {
    return m_said->text();
}

void PaperDialog::say(const QString& what) {
    m_said->setText(what);
}

void PaperDialog::copyText() {
    QApplication::clipboard()->setText(panelPaperText(m_kind, m_session));
    say(tr("Copied as text."));
}

bool PaperDialog::savePdf(const QString& path) {
    int pages = 0;
    {
        QPdfWriter writer(path);
        writer.setTitle(titleOf(m_kind));
        writer.setPageMargins(kMargins, QPageLayout::Millimeter);
        pages = drawPanelPaper(writer, m_kind, m_session);
    }
    say(pages > 0 ? tr("Saved: %1").arg(path)
                  : tr("%1 could not be written. Choose another place.").arg(path));
    return pages > 0;
}

void PaperDialog::saveByDialog() {
    const QString path =
        QFileDialog::getSaveFileName(this, titleOf(m_kind), fileOf(m_kind), tr("PDF (*.pdf)"));
    if (!path.isEmpty()) savePdf(path);
}

void PaperDialog::print() {
    auto* dialog = new QPrintDialog(m_printer.get(), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, qOverload<>(&QDialog::accepted), this, [this] {
        const int pages = drawPanelPaper(*m_printer, m_kind, m_session);
        say(pages > 0 ? tr("At the printer, %1.").arg(counted(pages, tr("page"), tr("pages")))
                      : tr("The printer took nothing. Nothing was lost; print again."));
    });
    dialog->open();
}

} // namespace stillroom::ui
