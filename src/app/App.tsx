import "./shell/shell.css";
import { useEffect } from "react";
import { CarDialogs } from "./car/CarDialogs.tsx";
import { CardDialog } from "./card/CardDialog.tsx";
import { PrintRoom } from "./card/PrintRoom.tsx";
import { takePicture } from "./card/takePicture.ts";
import { DropRoom } from "./files/DropRoom.tsx";
import { FileLine } from "./files/FileLine.tsx";
import { GearDialogs } from "./gear/GearDialogs.tsx";
import { LoadsDialogs } from "./loads/LoadsDialogs.tsx";
import { Patterns } from "./marks/Patterns.tsx";
import { PaperDialog } from "./paper/PaperDialog.tsx";
import { Shelf } from "./parts/Shelf.tsx";
import { PiecesDialog } from "./pieces/PiecesDialog.tsx";
import { ProjectLine } from "./projects/ProjectLine.tsx";
import { ProjectsDialog } from "./projects/ProjectsDialog.tsx";
import { StepsDialog } from "./projects/StepsDialog.tsx";
import { ScanPlace } from "./scans/ScanPlace.tsx";
import { ServiceDialogs } from "./service/ServiceDialogs.tsx";
import { BeginDialog } from "./setup/BeginDialog.tsx";
import { useAwake } from "./shell/awake.ts";
import { CautionsDialog } from "./shell/CautionsDialog.tsx";
import { rememberTheme } from "./shell/firstTheme.ts";
import { KeysDialog } from "./shell/KeysDialog.tsx";
import { Places } from "./shell/Places.tsx";
import { SaveLine } from "./shell/SaveLine.tsx";
import { TopBar } from "./shell/TopBar.tsx";
import { UpdateLine } from "./shell/UpdateLine.tsx";
import { useKeys } from "./shell/useKeys.ts";
import { useLayout } from "./shell/useLayout.ts";
import { useApp } from "./store/useApp.ts";

export function App() {
  const layout = useLayout();
  const theme = useApp((state) => state.theme);
  useKeys();
  useAwake();
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
    rememberTheme(theme);
  }, [theme]);
  return (
    <div className="app" data-layout={layout}>
      <Patterns />
      <TopBar layout={layout} />
      <div className="app-lines">
        <FileLine />
        <SaveLine />
        <ProjectLine />
        <UpdateLine />
      </div>
      <Places layout={layout} />
      <CardDialog takePicture={takePicture} />
      <CautionsDialog />
      <KeysDialog />
      <ProjectsDialog />
      <StepsDialog />
      <BeginDialog />
      <Shelf />
      <PiecesDialog />
      <CarDialogs />
      <LoadsDialogs />
      <GearDialogs />
      <ServiceDialogs />
      <PaperDialog />
      <ScanPlace />
      <DropRoom />
      <PrintRoom />
    </div>
  );
}
